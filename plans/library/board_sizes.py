"""How wide and how long boards are sold."""

from dataclasses import dataclass
from functools import cache

from plans.library.rough_stock import rough_stock
from plans.library.tables import rows
from plans.units import INCH, read_number


@dataclass(frozen=True)
class BoardSizes:
    """What one finds without asking, and what one can find at all (mm)."""

    rough: str
    usual_width: float
    widest: float
    usual_length: float
    longest: float
    source: str


@cache
def board_sizes(stock: str | None) -> BoardSizes:
    """The sizes of boards of a rough thickness: those of the thickest line of the table that is not thicker."""
    table = [_sizes(row) for row in rows("board_sizes")]
    known = rough_stock(stock) if stock else None
    if known is None:
        return table[0]
    fitting = [sizes for sizes in table if (line := rough_stock(sizes.rough)) and line.rough <= known.rough]
    return fitting[-1] if fitting else table[0]


def _sizes(row: dict[str, str]) -> BoardSizes:
    def mm(column: str) -> float:
        return float(read_number(row[column]) * INCH)

    return BoardSizes(
        row["rough"], mm("usual_width_in"), mm("widest_in"), mm("usual_length_in"), mm("longest_in"), row["source"]
    )
