"""The part on the bench: its sheet read into numbers, and the solid that grows smaller under the tools.

Lengths in mm as printed; each axis begins at the first line of its overall size. Solids are manifold3d's, which share
no code with the kernel that the model is made by.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from fractions import Fraction

import numpy as np
from manifold3d import CrossSection, FillRule, Manifold
from rebuilding.places import number, places, size_of
from rebuilding.records import SheetRecords, Span, Target

PAST = 2.0  # mm a tool stands outside the wood
FAR = 1e4  # mm
SHAVING = 0.01  # mm
ROUND = 64  # facets of a bored hole

Corner = list[float]


class NotTold(Exception):
    """The sheet does not say what a maker needs."""


@dataclass(frozen=True)
class Said:
    """A callout about one feature, its count taken off."""

    lines: tuple[str, ...]
    targets: tuple[Target, ...]

    def find(self, pattern: str) -> re.Match[str] | None:
        """The first line that a pattern is found in."""
        return next((found for line in self.lines if (found := re.search(pattern, line))), None)

    def read(self, pattern: str) -> re.Match[str]:
        found = self.find(pattern)
        if found is None:
            raise NotTold(f"{self.lines} says nothing like {pattern}")
        return found


@dataclass
class Stub:
    """Wood that is left standing past a shoulder: a box across `axis`, from the line of its root to that of its tip."""

    axis: int
    sign: int
    root: float
    tip: float
    low: Corner
    high: Corner


@dataclass
class Work:
    """A part, its sheet and what has been cut."""

    sheet: SheetRecords
    unit: Fraction
    step: float  # mm, to which its numbers are printed
    at: list[dict[int, float]] = field(init=False)
    full: Corner = field(init=False)
    solid: Manifold = field(init=False)
    stubs: list[Stub] = field(default_factory=list)
    later: list[Manifold] = field(default_factory=list)
    leaning: dict[tuple[int, int], dict[int, float]] = field(default_factory=dict)
    """(axis, sign) of an end or side that is not square -> other axis: rise along `axis` for each mm along it."""
    sloping: dict[tuple[int, int], tuple[float, float, float]] = field(default_factory=dict)
    """(axis, sign) of a tapered side -> where it begins, where it ends, how much comes off there."""

    def __post_init__(self) -> None:
        found, wrong = places(self.sheet, self.unit)
        if any("closes" in one for one in wrong):
            raise NotTold(f"numbers do not agree: {wrong}")
        self.at = [{rank: float(place) for rank, place in of_axis.items()} for of_axis in found]
        self.full = []
        for axis in range(3):
            sizes = [
                float(size_of(d, self.unit))
                for d in self.sheet.dimensions
                for span in d.spans
                if span.axis == axis and d.role == "overall"
            ]
            if not sizes:
                raise NotTold(f"no overall size along axis {axis}")
            self.full.append(sizes[0])
        self.solid = Manifold.cube(self.full)

    def spans(self, feature: int, axis: int | None = None, named: str = "") -> list[Span]:
        """What is measured of a feature."""
        return [
            span
            for dimension in self.sheet.dimensions
            for span in dimension.spans
            if span.feature == feature and (axis is None or span.axis == axis) and named in span.name
        ]

    def size(self, wanted: Span) -> float:
        """The printed size of a span."""
        return next(float(size_of(d, self.unit)) for d in self.sheet.dimensions if wanted in d.spans)

    def place(self, axis: int, rank: float) -> float:
        """Where a line is."""
        found = self.at[axis].get(int(rank)) if rank == int(rank) else None
        if found is None:
            raise NotTold(f"line {rank} of axis {axis} is not set out")
        return found

    def length(self, text: str) -> float:
        """A length in words."""
        return float(number(text, self.unit))

    def box_of(self, feature: int) -> tuple[Corner, Corner]:
        """The box between the lines that the sizes of a feature run between; right through where there are none."""
        low, high = [-PAST] * 3, [size + PAST for size in self.full]
        for axis in range(3):
            ranks = [
                rank
                for span in self.spans(feature, axis)
                if "position" not in span.name
                for rank in (span.start, span.end)
            ]
            if ranks:
                low[axis], high[axis] = self.place(axis, min(ranks)), self.place(axis, max(ranks))
        return low, high

    def opened(self, low: Corner, high: Corner) -> tuple[Corner, Corner]:
        """A box whose sides on the outside of the part stand out of it."""
        near = float(self.unit) / 64
        less = [-PAST if at < near else at for at in low]
        more = [size + PAST if at > size - near else at for at, size in zip(high, self.full, strict=True)]
        for stub in self.stubs:  # up to a shoulder, and no shaving left at it
            if abs(less[stub.axis] - stub.root) < near:
                less[stub.axis] -= SHAVING
            if abs(more[stub.axis] - stub.root) < near:
                more[stub.axis] += SHAVING
        return less, more

    def cut(self, *tools: Manifold) -> None:
        for tool in tools:
            self.solid -= tool

    def reached(self, axis: int, sign: int, centre: Corner) -> float:
        """Where a drill that comes from a side first meets wood."""
        low, high = [at - SHAVING for at in centre], [at + SHAVING for at in centre]
        low[axis], high[axis] = -PAST, self.full[axis] + PAST
        met = self.solid ^ box(low, high)
        if met.is_empty():
            raise NotTold(f"there is no wood at {centre}")
        return float(met.bounding_box()[axis + (3 if sign > 0 else 0)])

    def tilt(self, axis: int, sign: int, along: float) -> float:
        """How far the way straight into a side goes along the part, for each mm inwards; nothing where it is square."""
        if (axis, sign) not in self.sloping:
            return 0.0
        begins, ends, off = self.sloping[axis, sign]
        return -off / (ends - begins) if (along - begins) * (ends - begins) > 0 else 0.0

    def surface(self, axis: int, sign: int, along: float) -> float:
        """Where a side of the part is, at a place along it."""
        at = self.full[axis] if sign > 0 else 0.0
        if (axis, sign) in self.sloping:
            begins, ends, off = self.sloping[axis, sign]
            share = (along - begins) / (ends - begins)
            at -= sign * off * min(max(share, 0.0), 1.0)
        return at


def box(low: Corner, high: Corner) -> Manifold:
    size = [b - a for a, b in zip(low, high, strict=True)]
    if min(size) <= 0:
        raise NotTold(f"a box of no size: {low} to {high}")
    return Manifold.cube(size).translate(low)


def beyond(axis: int, sign: int, point: Corner, lean: dict[int, float]) -> tuple[list[float], float]:
    """Normal and offset of the plane through a point, its normal out along `axis`, `lean` mm up it for each mm."""
    normal = np.zeros(3)
    normal[axis] = sign
    for other, rise in lean.items():
        normal[other] = -sign * rise
    normal /= np.linalg.norm(normal)
    return normal.tolist(), float(normal @ np.array(point))


def inside_of(solid: Manifold, axis: int, sign: int, point: Corner, lean: dict[int, float]) -> Manifold:
    """What of a solid lies on the inner side of a plane."""
    normal, offset = beyond(axis, sign, point, lean)
    return solid.trim_by_plane([-n for n in normal], -offset)


def outside_of(solid: Manifold, axis: int, sign: int, point: Corner, lean: dict[int, float]) -> Manifold:
    return solid.trim_by_plane(*beyond(axis, sign, point, lean))


def furthest(low: Corner, high: Corner, axis: int, sign: int, lean: dict[int, float]) -> Corner:
    """The corner of a section that stands out furthest where its end leans."""
    point = list(low)
    for other, rise in lean.items():
        point[other] = high[other] if rise * sign > 0 else low[other]
    return point


def cylinder(
    axis: int, centre: Corner, start: float, end: float, radius: float, wider: float | None = None
) -> Manifold:
    """A round tool along an axis from `start` to `end`; a cone where it ends as wide as `wider`."""
    low, high = sorted((start, end))
    first, last = (radius, radius if wider is None else wider)
    if start > end:
        first, last = last, first
    tool = Manifold.cylinder(high - low, first, last, circular_segments=ROUND)
    turned = {0: (0.0, 90.0, 0.0), 1: (-90.0, 0.0, 0.0), 2: (0.0, 0.0, 0.0)}[axis]
    place = list(centre)
    place[axis] = low
    return tool.rotate(turned).translate(place)


def prism(axes: tuple[int, int], outline: list[tuple[float, float]], low: float, high: float) -> Manifold:
    """What an outline in the plane of two axes sweeps along the third."""
    a, b = axes
    third = 3 - a - b
    area = CrossSection([outline], FillRule.NonZero)
    if area.area() < 0 or area.is_empty():
        area = CrossSection([outline[::-1]], FillRule.NonZero)
    solid = area.extrude(high - low)
    matrix = np.zeros((3, 4))
    matrix[a, 0] = matrix[b, 1] = matrix[third, 2] = 1.0
    matrix[third, 3] = low
    return solid.transform(matrix)


def tangent(degrees: str) -> float:
    return math.tan(math.radians(float(degrees)))
