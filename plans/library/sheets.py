"""Sheet goods: how thick a nominal thickness really is, how large the sheets are, what they weigh."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows
from plans.units import INCH, System, read_number


@dataclass(frozen=True)
class Sheet:
    """One sheet good in one nominal thickness; lengths in mm, `density` in kg/m3.

    `counterpart`: the nominal thickness one asks for in its place in the other unit system.
    """

    name: str
    nominal: str
    counterpart: str
    true: float
    density: float
    inch_size: tuple[float, float]
    mm_size: tuple[float, float]
    source: str

    @property
    def system(self) -> System:
        """Where it is sold by this thickness."""
        return "mm" if self.nominal.endswith("mm") else "inch"

    def size(self, system: System) -> tuple[float, float]:
        """Length and width as sold where one measures in inches, or in millimetres (mm)."""
        return self.inch_size if system == "inch" else self.mm_size


@cache
def sheets() -> tuple[Sheet, ...]:
    """Every sheet of the table."""
    return tuple(_sheet(row) for row in rows("sheets"))


def sheets_called(name: str) -> tuple[Sheet, ...]:
    """Every thickness of a sheet good (capitals do not matter)."""
    return tuple(sheet for sheet in sheets() if sheet.name.lower() == " ".join(name.lower().split()))


def sheet(name: str, nominal: str | None) -> Sheet | None:
    """The sheet good of a nominal thickness (`3/4`, `18 mm`; also `18mm`, `3/4 in`), or None."""
    wanted = (nominal or "").replace(" ", "").removesuffix("in")
    return next((one for one in sheets_called(name) if one.nominal.replace(" ", "") == wanted), None)


def _sheet(row: dict[str, str]) -> Sheet:
    def inches(column: str) -> float:
        return float(read_number(row[column]) * INCH)

    return Sheet(
        name=row["name"],
        nominal=row["nominal"],
        counterpart=row["counterpart"],
        true=float(row["true_mm"]),
        density=float(row["density"]),
        inch_size=(inches("long_in"), inches("wide_in")),
        mm_size=(float(row["long_mm"]), float(row["wide_mm"])),
        source=row["source"],
    )
