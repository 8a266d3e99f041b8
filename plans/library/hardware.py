"""Things bought by a size: hinges, inserts, levellers and the like, with their sizes in both systems.

Each table has a row a size: `inch` and `mm` are what to ask for (`none` where it is not sold), each
size stands in a column for either (`leaf_in`, `leaf_mm`), and `source` says where the figures are from.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, read_number

NONE = "none"
COUNTS = ("screws", "gauge")  # columns that hold no length


@dataclass(frozen=True)
class Bought:
    """One size of one thing: what to ask for in each system, and its sizes in mm in the system it was asked for by."""

    inch: str
    mm: str
    source: str
    sizes: Mapping[str, float] = field(hash=False)

    def __getitem__(self, size: str) -> float:
        """One of its sizes (mm) or counts, by the name of its column."""
        return self.sizes[size]


@cache
def hardware(table: str) -> tuple[tuple[Bought, Bought], ...]:
    """Every row of a table, by its inch and by its metric sizes (the other's where a size is not sold)."""
    return tuple((_bought(row, "inch"), _bought(row, "mm")) for row in rows(table))


def bought(table: str, size: str) -> Bought | None:
    """The thing a table calls `size`, in inches or in mm, or None."""
    wanted = _plain(size)
    for by_inch, by_mm in hardware(table):
        if wanted == _plain(by_inch.inch) and by_inch.inch != NONE:
            return by_inch
        if wanted == _plain(by_mm.mm) and by_mm.mm != NONE:
            return by_mm
    return None


def sizes_of(table: str) -> list[str]:
    """Every size that can be asked for."""
    return [name for one, _ in hardware(table) for name in (one.inch, one.mm) if name != NONE]


def _plain(name: str) -> str:
    return name.replace(" ", "").replace("×", "x").lower()


def _bought(row: dict[str, str], system: str) -> Bought:
    other = {"inch": "mm", "mm": "inch"}
    system = other[system] if row[system] == NONE else system
    ending = {"inch": "_in", "mm": "_mm"}[system]
    unit = {"inch": float(INCH), "mm": 1.0}[system]
    sizes = {
        column.removesuffix(ending): float(read_number(text)) * unit
        for column, text in row.items()
        if column.endswith(ending)
    }
    sizes |= {column: float(text) for column, text in row.items() if column in COUNTS}
    return Bought(row["inch"], row["mm"], row["source"], sizes)
