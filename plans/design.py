"""A design that has been read: nothing left to resolve. Millimetres and degrees throughout."""

from dataclasses import dataclass
from fractions import Fraction

from plans.fixings import Fixing
from plans.hard import Change
from plans.joints import Joint
from plans.logo import Logo
from plans.problems import Place
from plans.sides import Axis, Side
from plans.sizes import BASE, Choice
from plans.source import Source
from plans.spec import DesignSpec, PartSpec
from plans.units import System, UnitSystem


@dataclass(frozen=True)
class Design:
    """The whole design as read.

    `spec` is the validated file: every formula in it is already a number in mm or degrees.
    `source` knows where in the file each thing was written.
    """

    stem: str  # the design file's name without folder and ending, and its size; safe in a path
    spec: DesignSpec
    source: Source
    step_inch: Fraction  # finest printed step, inches
    step_mm: Fraction  # finest printed step, mm
    system: System  # which member of every `{inch: ..., mm: ...}` pair was taken: the design's own units, or the other
    logo: Logo | None = None  # of the maker's house
    choice: Choice = BASE  # the size it was read for
    whole: Source | None = None  # the file as written, where `source` is how it reads for a size or re-made
    changes: tuple[Change, ...] = ()  # every number that is another one, where it is re-made in the other units
    printed_in: tuple[System, ...] = ("inch", "mm")  # the unit systems that sets of it are printed in

    @property
    def parts(self) -> dict[str, PartSpec]:
        """Kinds of part by name, in the order written."""
        return self.spec.parts

    @property
    def other_system(self) -> System:
        """The unit system that it was not read for."""
        return "inch" if self.system == "mm" else "mm"

    @property
    def written(self) -> Source:
        """The file as it was written, whatever the size."""
        return self.whole or self.source

    @property
    def file_stem(self) -> str:
        """What files of this piece are called: by its unit system too, where the other has a piece of its own."""
        return self.stem if len(self.printed_in) > 1 else f"{self.stem}-{self.printed_in[0]}"

    def units(self, system: System | None = None) -> UnitSystem:
        """How lengths are printed in `system` (the one it was read for unless said)."""
        name = system or self.system
        return UnitSystem(name, self.step_inch if name == "inch" else self.step_mm)

    def place(self, *path: str | int) -> Place:
        """Where in the file `path` was written, e.g. ("parts", "leg", "where", "left"), or its nearest parent."""
        return self.source.place(path)

    def joint_place(self, number: int, field: str | None = None) -> Place:
        """Where joint `number` (from 0), or a field of it, was written."""
        return self._entry_place("joints", number, field)

    def fixing_place(self, number: int, field: str | None = None) -> Place:
        """Where fixing `number` (from 0), or a field of it, was written."""
        return self._entry_place("fixings", number, field)

    def shaping_place(self, part: str, number: int, field: str | None = None) -> Place:
        """Where shaping `number` of a kind of part, or a field of it, was written."""
        path: tuple[str | int, ...] = ("parts", part, "shaping", number, "*")
        return self.source.place(path if field is None else (*path, field))

    def _entry_place(self, section: str, number: int, field: str | None) -> Place:
        # "*" stands for the one key of a {kind: {...}} entry
        path: tuple[str | int, ...] = (section, number, "*")
        return self.source.place(path if field is None else (*path, field))


__all__ = ["Axis", "Design", "Fixing", "Joint", "PartSpec", "Side"]
