"""What the checks of the written design look at, and how they tell what they find."""

from dataclasses import dataclass, field
from typing import Literal

from plans.fixings import Fixing
from plans.joints import Joint
from plans.placing import Assembly
from plans.problems import Problem
from plans.source import KeyPath, Source
from plans.spec import DesignSpec, PartSpec
from plans.units import System, shown
from plans.wording import spoken


@dataclass(frozen=True)
class Reading:
    """All that could be read: parts by name, joints and fixings by number; the whole only when all is right."""

    source: Source
    parts: dict[str, PartSpec]
    joints: dict[int, Joint]
    fixings: dict[int, Fixing]
    spec: DesignSpec | None
    units: System = "inch"
    assemblies: dict[str, Assembly] = field(default_factory=dict)

    def shown(self, mm: float) -> str:
        """A length in the units of the design, for messages."""
        return shown(mm, self.units)

    def problem(
        self,
        code: str,
        path: KeyPath,
        message: str,
        hint: str,
        *,
        key: bool = False,
        severity: Literal["error", "warning"] = "error",
        found: str = "",
        wanted: str = "",
    ) -> Problem:
        """A problem at the value of `path`, or with `key` at its key."""
        place = self.source.key_place(path) if key else self.source.place(path)
        parts = (str(path[1]),) if len(path) > 1 and path[0] == "parts" else ()
        said = spoken(tuple(item for item in path if item != "*"))
        return Problem(code, severity, f"{said}: {message}", place, hint, parts, found, wanted)
