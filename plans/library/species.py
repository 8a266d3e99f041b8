"""Woods: how they move, what they weigh, how stiff they are."""

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from plans.library.tables import rows


@dataclass(frozen=True)
class Species:
    """One wood. Shrinkage is green to ovendry; coefficients are per 1 % of moisture, good from 6 to 14 %."""

    name: str
    scientific: str
    group: Literal["hardwood", "softwood"]
    shrink_radial: float  # %
    shrink_tangential: float  # %
    shrink_volumetric: float  # %
    coefficient_radial: float  # change of size for 1 % of moisture
    coefficient_tangential: float
    gravity: float  # specific gravity, ovendry mass and volume at 12 % moisture
    stiffness: float  # modulus of elasticity at 12 %, MPa
    strength: float  # modulus of rupture at 12 %, MPa
    hardness: float  # side hardness at 12 %, N
    source: str

    def density(self, moisture: float = 12.0) -> float:
        """kg/m³ at `moisture` % (Wood Handbook, chapter 4), with the specific gravity taken at 12 %."""
        return 1000.0 * self.gravity * (1.0 + moisture / 100.0)


@cache
def all_species() -> tuple[Species, ...]:
    """Every wood of the table."""
    return tuple(_species(row) for row in rows("species"))


def species(name: str) -> Species | None:
    """The wood called `name` (capitals and hyphens do not matter), or None."""
    return next((wood for wood in all_species() if _plain(wood.name) == _plain(name)), None)


def _plain(name: str) -> str:
    """Without capitals, hyphens and what stands in brackets."""
    return " ".join(re.sub(r"\(.*?\)", "", name.lower()).replace("-", " ").split())


def _species(row: dict[str, str]) -> Species:
    return Species(
        name=row["common_name"],
        scientific=row["scientific_name"],
        group="softwood" if row["group"] == "softwood" else "hardwood",
        shrink_radial=float(row["shrink_radial_pct"]),
        shrink_tangential=float(row["shrink_tangential_pct"]),
        shrink_volumetric=float(row["shrink_volumetric_pct"]),
        coefficient_radial=float(row["coeff_radial"]),
        coefficient_tangential=float(row["coeff_tangential"]),
        gravity=float(row["specific_gravity_12"]),
        stiffness=1000.0 * float(row["moe_12_gpa"]),
        strength=float(row["mor_12_mpa"]),
        hardness=float(row["side_hardness_12_n"]),
        source=row["source"],
    )
