"""Rough lumber by its quarters or its millimetres, and what is left when both sides are surfaced."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import UNIT_MM, System, read_number


@dataclass(frozen=True)
class RoughStock:
    """One rough thickness: `rough` is how thick it is sawn, `surfaced` what it surely yields, both mm.

    `system`: where it is sold; `counterpart`: the name of what one asks for in its place where the other is.
    """

    name: str
    system: System
    rough: float
    surfaced: float
    counterpart: str
    source: str


@cache
def rough_stocks(system: System | None = None) -> tuple[RoughStock, ...]:
    """Every thickness of the table, or those sold in one unit system; of each system the thinnest first."""
    found = (_stock(row) for row in rows("rough_stock"))
    return tuple(stock for stock in found if system in (None, stock.system))


def rough_stock(name: str) -> RoughStock | None:
    """The thickness called `name`, e.g. `8/4` or `27 mm`, or None."""
    wanted = name.replace(" ", "")
    return next((stock for stock in rough_stocks() if stock.name.replace(" ", "") == wanted), None)


def _stock(row: dict[str, str]) -> RoughStock:
    system: System = "mm" if row["system"] == "mm" else "inch"
    unit = UNIT_MM[system]
    rough, surfaced = (float(read_number(row[column]) * unit) for column in ("rough", "surfaced"))
    return RoughStock(row["name"], system, rough, surfaced, row["counterpart"], row["source"])
