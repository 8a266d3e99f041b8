"""Softwood sold planed, by its nominal size: `1x4`, `2x6`."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, read_number


@dataclass(frozen=True)
class Dressed:
    """One size as sold; mm. The nominal size is the name's, by which it is priced."""

    name: str
    nominal: tuple[float, float]
    thickness: float
    width: float
    source: str


@cache
def dressed_sizes() -> tuple[Dressed, ...]:
    """Every size of the table, thinnest first."""
    return tuple(_dressed(row) for row in rows("dressed"))


def dressed(name: str | None) -> Dressed | None:
    """The size called `name` (`2x4`, `2 × 4`), or None."""
    wanted = (name or "").replace(" ", "").replace("×", "x").lower()
    return next((one for one in dressed_sizes() if one.name == wanted), None)


def _dressed(row: dict[str, str]) -> Dressed:
    def mm(column: str) -> float:
        return float(read_number(row[column]) * INCH)

    return Dressed(
        name=row["name"],
        nominal=(mm("nominal_thick"), mm("nominal_wide")),
        thickness=mm("thick_in"),
        width=mm("wide_in"),
        source=row["source"],
    )
