"""Boards as they are commonly sold: what a layout is tried on where a design lists none."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, System, read_number


@dataclass(frozen=True)
class BoardSold:
    """One size of board, mm."""

    name: str
    width: float
    length: float
    source: str


@cache
def boards_sold(system: System) -> tuple[BoardSold, ...]:
    """Common sizes in one unit system, smallest first."""
    return tuple(_board(row, system) for row in rows("boards"))


def _board(row: dict[str, str], system: System) -> BoardSold:
    if system == "mm":
        width, length = float(row["width_mm"]), float(row["length_mm"])
    else:
        width, length = float(read_number(row["width_in"]) * INCH), float(read_number(row["length_in"]) * INCH)
    return BoardSold(row["name"], width, length, row["source"])
