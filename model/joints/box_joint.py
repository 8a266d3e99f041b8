"""Box joints: square fingers that fill each other's gaps."""

from __future__ import annotations

from model.body import Body
from model.frames import Vector, round_point
from model.joints.corners import (
    Corner,
    board_corners,
    corner_point,
    datum_way,
    local_side,
    must_be_at_least,
    point_on,
    span,
)
from model.joints.joining import Habits, between
from model.piece import Callout, Feature, JointMade, Operation, Value
from plans.joints.box_joint import BoxJoint


def join(bodies: dict[str, list[Body]], joint: BoxJoint, number: int, habits: Habits) -> list[JointMade]:
    """Share out the slices of every corner by turns."""
    fit = habits.fit if joint.fit is None else joint.fit
    made = []
    for corner in board_corners(bodies[joint.of], bodies[joint.into]):
        low, high = corner.reach(corner.width)
        wide = (high - low) / joint.fingers
        must_be_at_least(wide, f"a finger of {corner.of.name} in {corner.into.name}")
        lines = [low + wide * n for n in range(joint.fingers + 1)]
        for body, other, first, out in (
            (corner.of, corner.into, 1, corner.out_of),
            (corner.into, corner.of, 0, corner.out_into),
        ):
            gaps = [
                slice_
                for n in range(first, joint.fingers, 2)
                for slice_ in between(corner.shared, corner.width, lines[n] - fit / 2, lines[n + 1] + fit / 2)
            ]
            body.cut([body.local(gap) for gap in gaps], f"the fingers of {body.name} for {other.name}")
            body.features.append(_feature(body, other, corner, out, wide, joint.fingers, first))
        names = (corner.of.name, corner.into.name)
        travel = corner.size(corner.out_of)
        way = round_point(corner.out_of)
        made.append(JointMade("box joint", number, *names, corner.where, way, travel, glued=True))
    return made


def _feature(
    body: Body, other: Body, corner: Corner, out: Vector, wide: float, fingers: int, first_gap: int
) -> Feature:
    """Fingers and gaps of one part; `out` points out of its end."""
    across = corner.out_into if body is corner.of else corner.out_of
    along = datum_way(body, corner)
    face = local_side(body, across)
    long = corner.size(out)
    start = corner_point(corner, out, across, -along)
    # what stands at the edge the rule is hooked on: the slices are counted from the low side
    from_low = float(along @ corner.width) > 0
    number = 0 if from_low else fingers - 1
    gap_first = number % 2 == first_gap
    values: dict[str, Value] = {
        "for": other.kind,
        "fingers": fingers,
        "wide": wide,
        "long": long,
        "first": "gap" if gap_first else "finger",
    }
    sizes = (
        span(body, "finger width", start, along, wide, face),
        span(body, "finger length", start, -out, long, face),
    )
    point = point_on(body, start + along * (corner.size(corner.width) / 2) - out * (long / 2))
    callout = Callout("fingers", dict(values), point, face)
    return Feature("fingers", "joint", sizes, (callout,), Operation("fingers", dict(values)), other.name)
