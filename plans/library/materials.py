"""What is neither wood nor sheet goods: stone, glass, metal."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows


@dataclass(frozen=True)
class Material:
    """One material; `density` in kg/m3."""

    name: str
    density: float
    source: str


@cache
def materials() -> tuple[Material, ...]:
    """Every material of the table."""
    return tuple(Material(row["name"], float(row["density"]), row["source"]) for row in rows("materials"))


def material(name: str) -> Material | None:
    """The material called `name` (capitals do not matter), or None."""
    return next((one for one in materials() if one.name == " ".join(name.lower().split())), None)
