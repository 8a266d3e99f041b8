"""Mitres: plain, splined or keyed."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, axis_vector, round_point
from model.joints.corners import Corner, corner_point, corners, local_side, must_be_at_least, point_on
from model.joints.joining import Habits
from model.kernel import KernelFault, Plane
from model.loose_bodies import standing_prism
from model.piece import Callout, Feature, JointMade, LoosePiece, Operation, Value
from model.slopes import slope_values
from plans.joints.mitre import Mitre, MitreKeys, Spline

SQUARE = 1e-6  # cosine
CLEAR = 1.0  # mm a cutter goes past what it cuts
INNER_THIRD = 1 / 3  # where the spline of a box mitre lies, from the inner arris (common practice)


def join(bodies: dict[str, list[Body]], joint: Mitre, number: int, habits: Habits) -> list[JointMade]:
    """Cut every corner of the two kinds of part along its diagonal, then the slots for what strengthens it."""
    made = []
    for corner in corners(bodies[joint.of], bodies[joint.into]):
        of, into = corner.of, corner.into
        if abs(float(corner.out_of @ corner.out_into)) > SQUARE:
            raise KernelFault(f"{of.name} and {into.name} do not meet square; a mitre is cut at square corners")
        outer, diagonal, across = _lines(corner)
        _cut(of, into, corner.out_of, Plane(outer, across))
        _cut(into, of, corner.out_into, Plane(outer, -across))
        loose: list[LoosePiece] = []
        if joint.spline is not None:
            loose.append(_spline(corner, joint.spline, outer, diagonal, across))
        if joint.keys is not None:
            loose.append(_keys(corner, joint.keys, outer, diagonal, across))
        names = (of.name, into.name)
        way = round_point(-corner.out_into)
        travel = corner.size(corner.out_into)
        made.append(JointMade("mitre", number, *names, corner.where, way, travel, True, tuple(loose)))
    return made


def _lines(corner: Corner) -> tuple[Vector, Vector, Vector]:
    """A point on the outer arris at mid width, the diagonal out to it, and the way across, out of `of` (piece)."""
    long, wide = corner.size(corner.out_of), corner.size(corner.out_into)
    outer = corner_point(corner, corner.out_of, corner.out_into)
    outer = outer + corner.width * sum(corner.reach(corner.width)) / 2
    diagonal = corner.out_of * long + corner.out_into * wide
    across = corner.out_of * wide - corner.out_into * long
    return outer, diagonal, across / np.linalg.norm(across)


def _cut(body: Body, other: Body, out: Vector, plane: Plane) -> None:
    """Cut the end of one part along the mitre, and note it as any sloping end is noted."""
    local = body.local_plane(plane)
    end = local_side(body, out)
    body.cut([kernel.beyond(local)], f"the mitre of {body.name} with {other.name}")
    values = {"side": end, **slope_values(local.normal, end, body.runs, body.thick)}
    seen = body.datum_side(body.thick if "mitre" in values and float(values["mitre"] or 0) > 1 else body.wide)
    callout = Callout("sloped end", dict(values), round_point(local.point), seen)
    body.features.append(
        Feature(
            "mitre", "joint", callouts=(callout,), operation=Operation("sloped end", dict(values)), other=other.name
        )
    )


def _spline(corner: Corner, spline: Spline, outer: Vector, diagonal: Vector, across: Vector) -> LoosePiece:
    """Slot both faces of the mitre for a spline."""
    of = corner.of
    flat = abs(float(of.at[:3, :3] @ axis_vector(of.thick) @ corner.width)) > 1 - SQUARE
    length = float(np.linalg.norm(diagonal))
    along = diagonal / length
    width = corner.size(corner.width)
    if flat:
        must_be_at_least((width - spline.thick) / 2, f"the cheek beside the spline of {of.name}")
        # the slot's ends follow the edges of the parts, which slope to it
        skew = max(corner.size(corner.out_of), corner.size(corner.out_into)) / min(
            corner.size(corner.out_of), corner.size(corner.out_into)
        )
        centre, sizes = outer - diagonal / 2, (length + 2 * CLEAR + spline.wide * skew, spline.thick)
        long = length
    else:
        centre, sizes = outer - diagonal * (1 - INNER_THIRD), (spline.thick, width + 2 * CLEAR)
        _walls(corner, spline, centre, along, across)
        long = width
    slot = _block(centre, (along, corner.width, across), (*sizes, spline.wide))
    values: dict[str, Value] = {"thick": spline.thick, "wide": spline.wide, "deep": spline.wide / 2, "flat": int(flat)}
    _sink(corner, [slot], "spline slot", values, centre, before_gluing=True)
    said: dict[str, Value] = {"thick": spline.thick, "wide": spline.wide, "long": long, "wood": of.spec.wood}
    if flat:
        start = outer - corner.width * (spline.thick / 2)
        rim = [start + p for p in _chevron(corner, along, across, length, spline.wide / 2)]
        body = standing_prism(rim, corner.width * spline.thick, across)
    else:
        start = centre - corner.width * (width / 2)
        rim = [start + along * s * spline.thick / 2 + across * t * spline.wide / 2 for s, t in _ROUND]
        body = standing_prism(rim, corner.width * width, across)
    return LoosePiece("spline", 1, said, (body,))


def _chevron(corner: Corner, along: Vector, across: Vector, length: float, half: float) -> list[Vector]:
    """Round a flat spline, from the outer arris: its ends follow the edges of the parts."""
    sides = [_slope(corner, along, across * sign) for sign in (-1.0, 0.0, 1.0)]
    offs = [-half, 0.0, half]
    outer = [across * off - along * abs(off) * slope for off, slope in zip(offs, sides, strict=True)]
    return [*outer, *(p - along * length for p in reversed(outer))]


def _slope(corner: Corner, along: Vector, aside: Vector) -> float:
    """How far inwards (mm for each mm aside of the mitre) the outer edge of the corner lies."""
    return max(float(aside @ out) / float(along @ out) for out in (corner.out_of, corner.out_into))


def _walls(corner: Corner, spline: Spline, centre: Vector, along: Vector, across: Vector) -> None:
    """Wood left between the slot of a box mitre and the faces of both parts."""
    for body, face, sign in ((corner.of, corner.out_into, -1.0), (corner.into, corner.out_of, 1.0)):
        corners_ = [
            centre + along * (spline.thick / 2 * side) + across * (sign * spline.wide / 2 * deep)
            for side in (-1, 1)
            for deep in (0, 1)
        ]
        heights = [float(point @ face) for point in corners_]
        low, high = corner.reach(face)
        must_be_at_least(min(min(heights) - low, high - max(heights)), f"the wall beside the spline of {body.name}")


def _keys(corner: Corner, keys: MitreKeys, outer: Vector, diagonal: Vector, across: Vector) -> LoosePiece:
    """Slot the outside of the corner for its keys."""
    length = float(np.linalg.norm(diagonal))
    along = diagonal / length
    what = f"the wood inside the keys of {corner.of.name}"
    must_be_at_least(length - keys.deep, what)
    width = corner.size(corner.width)
    between = (width - keys.number * keys.thick) / (keys.number + 1)
    must_be_at_least(between, f"the wood between the keys of {corner.of.name}")
    size = (keys.deep + CLEAR, keys.thick, 4 * length)
    middles = [-width / 2 + between * (n + 1) + keys.thick * (n + 0.5) for n in range(keys.number)]
    inward = outer - along * ((keys.deep - CLEAR) / 2)
    slots = [_block(inward + corner.width * at, (along, corner.width, across), size) for at in middles]
    values: dict[str, Value] = {"number": keys.number, "thick": keys.thick, "deep": keys.deep}
    _sink(corner, slots, "key slot", values, outer - along * (keys.deep / 2))
    sizes = {"thick": keys.thick, "wide": keys.deep, "long": 2 * keys.deep}
    foot = -along * keys.deep
    rim = [
        np.zeros(3),
        *(foot + across * sign * keys.deep / _slope(corner, along, across * sign) for sign in (-1.0, 1.0)),
    ]
    starts = [outer + corner.width * (at - keys.thick / 2) for at in middles]
    bodies = tuple(standing_prism([start + p for p in rim], corner.width * keys.thick, across) for start in starts)
    return LoosePiece("key", keys.number, {**sizes, "wood": corner.of.spec.wood}, bodies)


def _sink(
    corner: Corner,
    slots: list[cq.Solid],
    name: str,
    values: dict[str, Value],
    centre: Vector,
    *,
    before_gluing: bool = False,
) -> None:
    """Cut slots into both parts; those that wait for the glued corner are no work on a single part."""
    for body, other in ((corner.of, corner.into), (corner.into, corner.of)):
        body.cut([body.local(slot) for slot in slots], f"the {name} in {body.name}")
        said: dict[str, Value] = {"for": other.kind, **values}
        face = body.datum_side(body.thick)
        callout = Callout(name, dict(said), point_on(body, centre), face)
        work = Operation(name, dict(said)) if before_gluing else None
        body.features.append(Feature(name, "joint", (), (callout,), work, other.name))


def _block(centre: Vector, ways: tuple[Vector, Vector, Vector], sizes: tuple[float, float, float]) -> cq.Solid:
    """A block about a point, its edges along three directions square to each other."""
    a, b, c = (way * (size / 2) for way, size in zip(ways, sizes, strict=True))
    points = [kernel.vector(centre + s * a + t * b - c) for s, t in _ROUND]
    wire = cq.Wire.makePolygon([*points, points[0]])
    return kernel.one_solid(cq.Solid.extrudeLinear(wire, [], kernel.vector(2 * c)), "a slot")


_ROUND: tuple[tuple[int, int], ...] = ((-1, -1), (1, -1), (1, 1), (-1, 1))
