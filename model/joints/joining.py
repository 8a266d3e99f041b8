"""What the kinds of joint have in common: where parts meet, and what is cut where they cross."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body, extents_of
from model.frames import Vector, apply, axis_vector, nearest_side, round_point, side_vector
from model.kernel import Plane
from model.piece import Callout, Feature, Operation, Point, Value
from model.probe import probe
from model.recess import recess_sizes
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDES, Axis, Side

TOUCH = 0.05  # mm: parts this near touch


@dataclass(frozen=True)
class Habits:
    """What is taken where a joint does not say (mm)."""

    fit: float  # room for glue at each cheek
    relief: float  # extra depth of a mortise
    notch_fit: float  # room on each side of a notch
    draw: float  # how far a peg draws a tenon into its mortise


# Common practice: a tenon that slides home by hand, 1/16 in of room for glue at the bottom.
HABITS: dict[str, Habits] = {
    "inch": Habits(fit=0.1, relief=25.4 / 16, notch_fit=25.4 / 64, draw=25.4 / 16),
    "mm": Habits(fit=0.1, relief=1.5, notch_fit=0.4, draw=1.5),
}


def end_plane(body: Body, end: Side) -> tuple[cq.Face, Plane] | None:
    """The flat face that closes an end (piece frame): the largest that mostly faces that way."""
    solid = body.world(body.sharp)
    outward = body.outward(end)
    faces = [(face, plane) for face, plane in kernel.flat_faces(solid) if float(plane.normal @ outward) > 0.5]
    return max(faces, key=lambda found: found[0].Area(), default=None)


def met_by(plane: Plane, others: list[Body]) -> Body | None:
    """The part of `others` that lies right behind the middle of an end face."""
    behind = plane.point + plane.normal * TOUCH
    return next((other for other in others if probe(other.sharp).holds(apply(other.back, behind))), None)


def crossings(first: list[Body], second: list[Body]) -> Iterator[tuple[Body, Body, cq.Solid]]:
    """Each pair of parts that lie through each other, with the one solid they share (piece frame)."""
    for a in first:
        for b in second:
            if a is b:
                continue
            shared = kernel.common(a.world(a.sharp), b.world(b.sharp))
            for solid in shared:
                yield a, b, solid


def between(solid: cq.Shape, direction: Vector, low: float, high: float) -> list[cq.Shape]:
    """The part of a solid whose distance along `direction` lies between two values."""
    outside = [
        kernel.beyond(Plane(direction * high, direction)),
        kernel.beyond(Plane(direction * low, -direction)),
    ]
    return [piece for piece in kernel.less(solid, *outside) if piece.Volume() > kernel.VOLUME_NOISE]


def reach_along(shape: cq.Shape, direction: Vector) -> tuple[float, float]:
    """How far the corners of a shape reach along a direction."""
    heights = kernel.vertices(shape) @ direction
    return float(heights.min()), float(heights.max())


def centre_of(shape: cq.Shape) -> Point:
    """The middle of a shape, as plain numbers."""
    return round_point(kernel.array(shape.Center()))


def widened(shapes: list[cq.Shape], direction: Vector, room: float) -> list[cq.Shape]:
    """Shapes grown by `room` both ways along a direction, by copies; they have to be thicker than that.

    Where a leaning part comes to a point it is thinner: there only the copy that stays in place covers it.
    """
    if room <= 0:
        return list(shapes)
    ways = [cq.Location(kernel.vector(direction * shift)) for shift in (-room, 0.0, room)]
    return [kernel.placed(shape, way) for shape in shapes for way in ways]


def opening_side(body: Body, low: Vector, high: Vector, hint: Vector | None = None) -> Side:
    """The side on which a recess between two corners of the standing frame is open; never an end."""
    gaps: dict[Side, float] = {}
    for side in SIDES:
        if SIDE_AXIS[side] == body.runs:
            continue
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        corner = (high if side_vector(side)[number] > 0 else low)[number]
        gaps[side] = abs(body.blank.at(side) - corner)
    if hint is not None:
        side = nearest_side(body.back[:3, :3] @ hint)
        if gaps.get(side, 1.0) < TOUCH:
            return side
    return min(gaps, key=lambda side: gaps[side])


def sink(
    body: Body,
    tools: list[cq.Shape],
    other: Body,
    name: str,
    values: dict[str, Value],
    hint: Vector,
    *,
    seen_open: bool = False,
) -> None:
    """Cut `tools` (piece frame) out of a part and note the recess: where it is, how long, how deep.

    `hint` points out of the piece where the recess opens; with `seen_open` its callout stands on that side.
    """
    taken = body.taken([body.local(tool) for tool in tools], f"the {name} in {body.name} for {other.name}")
    reach = extents_of(taken)
    opens = opening_side(body, reach.low, reach.high, hint)
    sizes = recess_sizes(body, reach.low, reach.high, opens, name)
    depth = reach.size(SIDE_AXIS[opens])
    said: dict[str, Value] = {
        "for": other.kind,
        "long": reach.size(body.runs),
        "deep": depth,
        "side": opens,
        "walls": _slope_of(taken, body.runs),
        **({"floor": _slope_of(taken, SIDE_AXIS[opens])} if name == "notch" else {}),
        **values,
    }
    middle = (reach.low + reach.high) / 2
    seen = opens if seen_open else body.datum_side(body.thick if SIDE_AXIS[opens] == body.wide else body.wide)
    point = (float(middle[0]), float(middle[1]), float(middle[2]))
    callout = Callout(name, dict(said), point, seen, (round_point(reach.low), round_point(reach.high)))
    body.features.append(Feature(name, "joint", sizes, (callout,), Operation(name, dict(said)), other.name))


def _slope_of(taken: cq.Shape, axis: Axis) -> float:
    """How far the flats of a recess that face along an axis lean out of square with the part (degrees)."""
    way = axis_vector(axis)
    slopes = [0.0]
    for _, plane in kernel.flat_faces(taken):
        cosine = abs(float(plane.normal @ way))
        if cosine > 0.5:
            slopes.append(float(np.degrees(np.arccos(min(1.0, cosine)))))
    return round(max(slopes), 6)
