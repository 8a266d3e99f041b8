"""Biscuits by the sizes of the trade, which are the same everywhere."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows


@dataclass(frozen=True)
class BiscuitSize:
    """One size; mm. `thick` is also the width of its slot, `deep` how deep the slot is cut in either part."""

    size: str
    long: float
    wide: float
    thick: float
    deep: float
    source: str


@cache
def biscuit_sizes() -> tuple[BiscuitSize, ...]:
    """Every size of the table, smallest first."""
    return tuple(_size(row) for row in rows("biscuits"))


def biscuit_size(name: str) -> BiscuitSize | None:
    """The size called `name` (`20`), or None."""
    return next((one for one in biscuit_sizes() if one.size == name.strip()), None)


def _size(row: dict[str, str]) -> BiscuitSize:
    return BiscuitSize(
        size=row["size"],
        long=float(row["long_mm"]),
        wide=float(row["wide_mm"]),
        thick=float(row["thick_mm"]),
        deep=float(row["deep_mm"]),
        source=row["source"],
    )
