"""Wood screws by gauge, their metric counterparts, and the holes each needs."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, read_number


@dataclass(frozen=True)
class Drills:
    """Drill diameters in mm: for the shank (it passes freely), and for the thread in hard and soft wood."""

    shank: float
    pilot_hard: float
    pilot_soft: float


@dataclass(frozen=True)
class Screw:
    """One gauge; sizes in mm. The metric counterpart is the screw to buy where gauges are not sold."""

    gauge: int
    diameter: float
    head: float
    drills: Drills
    metric_diameter: float
    metric_head: float
    metric_drills: Drills
    source: str


@cache
def screws() -> tuple[Screw, ...]:
    """Every gauge of the table, thinnest first."""
    return tuple(_screw(row) for row in rows("screws"))


def screw(gauge: int) -> Screw | None:
    """The screw of that gauge, or None."""
    return next((one for one in screws() if one.gauge == gauge), None)


def metric_screw(diameter: float) -> Screw | None:
    """The screw whose metric counterpart has that diameter (mm), or None."""
    return next((one for one in reversed(screws()) if abs(one.metric_diameter - diameter) < 0.05), None)


def _screw(row: dict[str, str]) -> Screw:
    def inch(column: str) -> float:
        return float(read_number(row[column]) * INCH)

    def mm(column: str) -> float:
        return float(row[column])

    return Screw(
        gauge=int(row["gauge"]),
        diameter=inch("diameter_in"),
        head=inch("head_in"),
        drills=Drills(inch("shank_hole_in"), inch("pilot_hard_in"), inch("pilot_soft_in")),
        metric_diameter=mm("diameter_mm"),
        metric_head=mm("head_mm"),
        metric_drills=Drills(mm("shank_hole_mm"), mm("pilot_hard_mm"), mm("pilot_soft_mm")),
        source=row["source"],
    )
