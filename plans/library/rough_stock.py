"""Rough lumber by its quarters, and what is left when both sides are surfaced."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, read_number


@dataclass(frozen=True)
class RoughStock:
    """One rough thickness: `rough` is how thick it is sawn, `surfaced` what it surely yields, both mm."""

    name: str
    rough: float
    surfaced: float
    source: str


@cache
def rough_stocks() -> tuple[RoughStock, ...]:
    """Every thickness of the table, thinnest first."""
    return tuple(
        RoughStock(row["name"], _mm(row["rough_in"]), _mm(row["surfaced_in"]), row["source"])
        for row in rows("rough_stock")
    )


def rough_stock(name: str) -> RoughStock | None:
    """The thickness called `name`, e.g. `8/4`, or None."""
    wanted = name.replace(" ", "")
    return next((stock for stock in rough_stocks() if stock.name == wanted), None)


def _mm(inches: str) -> float:
    return float(read_number(inches) * INCH)
