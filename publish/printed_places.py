"""Where the lines across a part come out in printed numbers, so that chains close and alike sizes read alike."""

from __future__ import annotations

from dataclasses import dataclass, field

from model.piece import Part, Size
from plans.sides import AXIS_NUMBER, Axis, third_axis
from plans.units import UnitSystem

_ONE_LINE = 0.02  # mm: what is closer is one line of the part


@dataclass
class _Lines:
    """The lines across one axis that have their place: (where they are, where they print, whether they follow)."""

    units: UnitSystem
    datum: float
    known: list[tuple[float, float, bool]] = field(default_factory=list)

    def of(self, at: float) -> tuple[float, bool] | None:
        """The printed place of a line and whether it follows from another."""
        return next(((to, follows) for there, to, follows in self.known if abs(there - at) < _ONE_LINE), None)

    def from_the_end(self, at: float) -> float:
        """A place rounded once from the end that is measured from."""
        found = self.of(at)
        if found is None:
            self.known.append((at, self.units.round(at - self.datum), False))
            return self.known[-1][1]
        return found[0]

    def set_out(self, start: float, end: float) -> None:
        """Both ends of a size: the second follows from the first by the size rounded by itself."""
        near, far = sorted((start, end), key=lambda at: (self.of(at) is None, abs(at - self.datum)))
        if self.of(far) is not None:
            return
        known = self.of(near)
        if known is not None and known[1]:
            self.from_the_end(far)  # never two in a row, or the error would grow
            return
        to = self.from_the_end(near)
        size = self.units.round(abs(far - near))
        self.known.append((far, to + size if far > near else to - size, True))


@dataclass(frozen=True)
class PrintedPlaces:
    """The printed places of a part, by axis."""

    lines: dict[Axis, _Lines]

    def between(self, size: Size) -> float:
        """A size as it prints (mm): the difference of two places."""
        number, lines = AXIS_NUMBER[size.along], self.lines[size.along]
        return abs(lines.from_the_end(size.end[number]) - lines.from_the_end(size.start[number]))


def printed_places(part: Part, units: UnitSystem) -> PrintedPlaces:
    """Ends and positions are rounded from the end that is measured from; what is alike at both ends is so in print.

    A size (a tenon, a mortise) is rounded by itself, as its callout says it, and the line at its far end follows: no
    place is off by more than a step.
    """
    runs, thick = part.spec.runs, part.spec.thick
    reaches: dict[Axis, tuple[float, float]] = {
        runs: part.length,
        thick: part.thickness,
        third_axis(runs, thick): part.width,
    }
    upright = runs == "up-down"
    lines = {axis: _Lines(units, reach[1 if upright and axis == runs else 0]) for axis, reach in reaches.items()}
    for axis, (low, high) in reaches.items():
        lines[axis].from_the_end(low)
        lines[axis].from_the_end(high)
    sizes = [size for feature in part.features for size in feature.sizes]
    touching: list[tuple[Axis, float, float]] = []
    others: list[tuple[Axis, float, float]] = []
    for size in (size for size in sizes if size.role == "size"):
        number = AXIS_NUMBER[size.along]
        ends = size.start[number], size.end[number]
        at_an_end = any(lines[size.along].of(at) is not None for at in ends)
        (touching if at_an_end else others).append((size.along, *ends))
    for along, start, end in touching:
        lines[along].set_out(start, end)
    for size in (size for size in sizes if size.role == "position"):
        for point in (size.start, size.end):
            lines[size.along].from_the_end(point[AXIS_NUMBER[size.along]])
    for along, start, end in others:
        lines[along].set_out(start, end)
    return PrintedPlaces(lines)
