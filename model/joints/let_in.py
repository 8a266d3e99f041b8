"""Ends and edges of one part let into the face of another: tongues, and the grooves that take them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, side_vector, turn
from model.joints.joining import sink
from model.kernel import KernelFault, Plane, spell
from model.overlap import common_volume, contact_patches
from model.piece import Callout, Feature, Operation, Point, Size, Value
from model.recess import NOTHING, placed
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Axis, Side

INSIDE = 2.0  # mm a tongue begins behind its shoulder, inside the part it grows from
APART = 5.0  # mm: parts that are left further apart than this do not meet
LEAST_WALL = 3.0  # mm of wood behind a groove: less breaks out under the cutter (common practice: 1/8 in)


@dataclass(frozen=True)
class Seam:
    """Where an end or edge of one part lies along a face of another (all in the standing frame of `of`)."""

    of: Body
    into: Body
    side: Side  # of `of`
    face: Plane  # the face of `of`; its normal points into the other part
    low: Vector  # reach of the area over which the two face each other
    high: Vector
    gap: float  # mm between the two faces

    @property
    def along(self) -> Axis:
        """The direction of the seam, square to the thickness of the part that goes in."""
        return self.of.wide if SIDE_AXIS[self.side] == self.of.runs else self.of.runs

    @property
    def direction(self) -> Vector:
        """Unit vector in the piece, out of `of` and into the other."""
        return turn(self.of.at, self.face.normal)

    @property
    def where(self) -> Point:
        """The middle of the seam, in the piece."""
        return round_point(apply(self.of.at, (self.low + self.high) / 2))


def seams(ofs: list[Body], intos: Iterable[Body], sides: tuple[Side, ...] = ()) -> list[Seam]:
    """Every end and edge (of `sides` only, where some are named) that lies along a face of another part."""
    others = list(intos)
    return [seam for of in ofs for into in others if of is not into for seam in _between(of, into, sides)]


def _between(of: Body, into: Body, sides: tuple[Side, ...]) -> Iterator[Seam]:
    """The largest area on each side of `of`."""
    seen: set[Side] = set()
    for patch in contact_patches(of.mesh(), into.mesh(), APART):
        normal = turn(of.back, patch.normal)
        side = nearest_side(normal)
        if SIDE_AXIS[side] == of.thick or side in seen or (sides and side not in sides):
            continue
        outline = np.array([apply(of.back, point) for point in patch.outline])
        if not _closes(of, side, outline):
            continue
        seen.add(side)
        face = Plane(apply(of.back, patch.centroid), normal)
        yield Seam(of, into, side, face, outline.min(axis=0), outline.max(axis=0), max(0.0, patch.gap))


def _closes(of: Body, side: Side, outline: Vector) -> bool:
    """Whether an area lies on the side that closes the blank, and not in a recess of it."""
    column = outline[:, AXIS_NUMBER[SIDE_AXIS[side]]]
    return bool(np.abs(column - of.blank.at(side)).min() < NOTHING)


def cheeks(of: Body, thick: float | None, flush: Side | None) -> tuple[float, float]:
    """Where a tongue lies in the thickness of its part: its two cheeks (standing frame)."""
    low, high = of.blank.of(of.thick)
    if thick is None:
        return low, high
    if thick > high - low + NOTHING:
        raise KernelFault(f"a tongue {spell(thick)} thick is more than {of.name} has: {spell(high - low)}")
    if flush is None:
        middle = (low + high) / 2
        return middle - thick / 2, middle + thick / 2
    at = of.blank.at(flush)
    inward = at - side_vector(flush)[AXIS_NUMBER[of.thick]] * thick
    return min(at, inward), max(at, inward)


def section(seam: Seam, cheek: tuple[float, float], stopped: dict[Side, float]) -> tuple[Vector, Vector]:
    """Corners of a tongue's section (standing frame of `of`); how far it goes in is left open."""
    low, high = seam.low.copy(), seam.high.copy()
    thick = AXIS_NUMBER[seam.of.thick]
    low[thick], high[thick] = cheek
    along = AXIS_NUMBER[seam.along]
    for side, short in stopped.items():
        corner = high if side_vector(side)[along] > 0 else low
        corner[along] = seam.of.blank.at(side) - side_vector(side)[along] * short
    if high[along] - low[along] < LEAST_WALL:
        raise KernelFault(f"what is stopped leaves no tongue on {seam.of.name}")
    return low, high


def tongue_solid(seam: Seam, low: Vector, high: Vector, reach: float, room: float = 0.0) -> cq.Solid:
    """A tongue that ends `reach` past its own shoulder, parallel to it, `room` larger all round (standing frame)."""
    number = AXIS_NUMBER[SIDE_AXIS[seam.side]]
    low, high = low - room, high + room
    slope = abs(float(seam.face.normal[number]))
    far = (reach + INSIDE) / slope + float(np.linalg.norm(high - low))
    at = float(seam.face.point[number])
    low[number], high[number] = at - far, at + far
    normal = seam.face.normal
    stops = [
        kernel.beyond(Plane(seam.face.point + normal * reach, normal)),
        kernel.beyond(Plane(seam.face.point - normal * INSIDE, -normal)),
    ]
    return kernel.sound(kernel.less(kernel.box(low, high), *stops), f"the tongue of {seam.of.name}")


def wood_along(solid_of: Body, frame: Body, start: Vector, direction: Vector) -> float:
    """Thickness (mm) of one part's wood from a point in a direction, both in the standing frame of another part."""
    ahead = solid_of.wood(apply(frame.at, start), turn(frame.at, direction))
    return next((end - begin for begin, end in ahead if begin < NOTHING), 0.0)


def wall_behind(seam: Seam, reach: float) -> float:
    """Thickness (mm) of wood left behind the middle of a groove `reach` past the shoulder."""
    return wood_along(seam.into, seam.of, (seam.low + seam.high) / 2 + seam.face.normal * reach, seam.face.normal)


def must_leave(wall: float, what: str, least: float = LEAST_WALL) -> None:
    """Refuse a recess that leaves too little wood behind it."""
    if wall < least - NOTHING:
        raise KernelFault(f"{what} leaves {spell(wall)} of wall; at least {spell(least)} is wanted")


def groove(seam: Seam, tool: cq.Shape, reach: float, name: str, values: dict[str, Value]) -> None:
    """Cut a groove with `tool` (standing frame of `of`) into the other part, and note it.

    A groove that another part has had ploughed right along there serves for both, and is told once.
    """
    if name == "groove" and common_volume(seam.into.world(seam.into.sharp), seam.of.world(tool)) < NOTHING:
        return
    must_leave(wall_behind(seam, reach), f"the {name} in {seam.into.name} for {seam.of.name}")
    sink(seam.into, [seam.of.world(tool)], seam.of, name, values, -seam.direction, seen_open=True)


def grow(
    seam: Seam,
    low: Vector,
    high: Vector,
    reach: float,
    name: str,
    solid: cq.Solid | None = None,
    more: dict[str, Value] | None = None,
) -> None:
    """Give the part its tongue, with its sizes, and note it.

    Its section lies between two corners, unless the `solid` is given; `more` is said of it in its callout.
    """
    of = seam.of
    whole = _whole(of, low, high, (seam.along, of.thick))
    of.add(solid or tongue_solid(seam, low, high, reach), f"the tongue of {of.name}")
    corner, tip = _tip(seam, low, high, reach)
    face, edge = of.datum_side(of.thick), of.datum_side(of.wide if seam.along == of.runs else of.runs)
    axis = SIDE_AXIS[seam.side]
    number = AXIS_NUMBER[axis]
    sizes = [
        Size(
            f"{name} length",
            abs(float(tip[number] - corner[number])),
            axis,
            round_point(corner),
            round_point(tip),
            face,
            "size",
        )
    ]
    low, high = low.copy(), high.copy()
    low[number] = high[number] = float(corner[number])
    if seam.along not in whole:
        sizes += placed(of, low, high, seam.along, face, name)
    if of.thick not in whole:
        sizes += placed(of, low, high, of.thick, seam.side if seam.along == of.runs else edge, f"{name} thickness")
    thick = float((high - low)[AXIS_NUMBER[of.thick]])
    values: dict[str, Value] = {"for": seam.into.kind, "thick": thick, "long": reach, "end": seam.side, **(more or {})}
    middle = (low + high) / 2
    middle[number] = (corner[number] + tip[number]) / 2
    first, last = low.copy(), high.copy()
    first[number] = last[number] = middle[number]
    callout = Callout(name, dict(values), round_point(middle), face, (round_point(first), round_point(last)))
    of.features.append(Feature(name, "joint", tuple(sizes), (callout,), Operation(name, dict(values)), seam.into.name))


def _whole(body: Body, low: Vector, high: Vector, axes: tuple[Axis, Axis]) -> set[Axis]:
    """The directions in which a section is as large as the part."""
    return {
        axis
        for axis in axes
        if body.blank.size(axis) - float(high[AXIS_NUMBER[axis]] - low[AXIS_NUMBER[axis]]) < NOTHING
    }


def _tip(seam: Seam, low: Vector, high: Vector, reach: float) -> tuple[Vector, Vector]:
    """The corner of a tongue that stands out furthest: at its shoulder, and at its end (standing frame)."""
    number = AXIS_NUMBER[SIDE_AXIS[seam.side]]
    outward = side_vector(seam.side)
    slope = float(seam.face.normal[number])
    corners = []
    for point in (low, high):
        foot = point.copy()
        foot[number] = 0.0
        foot = foot - outward * outward[number] * seam.face.height(foot) / slope
        corners.append(foot)
    corner = max(corners, key=lambda point: float(point @ outward))
    return corner, corner + outward * (reach / abs(slope))
