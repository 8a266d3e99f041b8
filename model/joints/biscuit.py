"""Biscuits: slots that face each other, cut with a disc from where two parts meet."""

from __future__ import annotations

import math

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.joints.joining import Habits
from model.kernel import KernelFault, spell
from model.loose_bodies import standing_prism
from model.meeting import Meeting, meetings
from model.piece import Callout, Feature, JointMade, LooseBody, LoosePiece, Operation, Value
from model.shaping.hole import centre_sizes
from model.walls import needs_floor, needs_wall
from plans.joints.biscuit import Biscuit
from plans.library import BiscuitSize, biscuit_size

NARROW = 12.0  # mm: a narrower face is no place for a biscuit (common practice: stock of 1/2 in and more)
CUTTER = 100.0  # mm across: the disc of a biscuit joiner (common practice: 4 in)
MOUTH = 0.5  # mm below the face, where the wall is measured
BETWEEN = 3.0  # mm of wood between the ends of two slots
CLEAR = 1.0  # mm the tool begins outside the face


def join(bodies: dict[str, list[Body]], joint: Biscuit, number: int, habits: Habits) -> list[JointMade]:
    """Slot both parts wherever the two kinds meet on a face wide enough."""
    size = biscuit_size(joint.size)
    assert size is not None, "the size was looked up when the design was read"
    made = []
    for meeting in meetings(bodies[joint.of], bodies[joint.into], NARROW):
        points = meeting.row(joint.per_place, joint.from_ends)
        _needs_room(meeting, size, points)
        for body, other, inward in (
            (meeting.of, meeting.into, -meeting.inward),
            (meeting.into, meeting.of, meeting.inward),
        ):
            _slots(body, other, points, inward, size, meeting)
        standing = tuple(_body(meeting, point, size) for point in points)
        loose = LoosePiece("biscuit", len(points), {"size": size.size}, standing)
        names = (meeting.of.name, meeting.into.name)
        where, way = round_point(meeting.centre), round_point(meeting.inward)
        made.append(JointMade("biscuit", number, *names, where, way, size.wide / 2, joint.glue, (loose,)))
    return made


def _body(meeting: Meeting, point: Vector, size: BiscuitSize) -> LooseBody:
    """A biscuit, half of its width in each part: two arcs through its ends."""
    half_long, half_wide = meeting.along * size.long / 2, meeting.inward * size.wide / 2
    start = point - meeting.across * size.thick / 2
    rim = [start - half_long, start + half_wide, start + half_long, start - half_wide]
    return standing_prism(rim, meeting.across * size.thick, None, bowed=True)


def slot_long(deep: float) -> float:
    """How long a slot is at the face: the chord of the disc, `deep` from its rim (mm)."""
    return 2 * math.sqrt(deep * (CUTTER - deep))


def _needs_room(meeting: Meeting, size: BiscuitSize, points: list[Vector]) -> None:
    if len(points) > 1:
        apart = float((points[1] - points[0]) @ meeting.along)
        least = slot_long(size.deep) + BETWEEN
        if apart < least:
            raise KernelFault(
                f"the biscuits stand {spell(apart)} apart between {meeting.of.name} and {meeting.into.name}; "
                f"at least {spell(least)} is wanted for size {size.size}"
            )


def _slots(body: Body, other: Body, points: list[Vector], inward: Vector, size: BiscuitSize, meeting: Meeting) -> None:
    what = f"the biscuit slot for {other.name}"
    for way, half in ((meeting.along, slot_long(size.deep) / 2), (meeting.across, size.thick / 2)):
        for out in (way, -way):
            needs_wall(body, what, [point + inward * MOUTH + out * half for point in points], out)
    needs_floor(body, what, [point + inward * size.deep for point in points], inward)
    mouths = [apply(body.back, point) for point in points]
    into, across = turn(body.back, inward), turn(body.back, meeting.across)
    body.cut([_slot(mouth, into, across, size) for mouth in mouths], f"the biscuit slots in {body.name}")
    side = nearest_side(-into)
    values: dict[str, Value] = {
        "size": size.size,
        "thick": size.thick,
        "deep": size.deep,
        "count": len(points),
        "for": other.kind,
    }
    first, *row = map(round_point, mouths)
    callout = Callout("biscuit slot", dict(values), first, side, row=tuple(row))
    sizes = centre_sizes(body, mouths, side, "biscuit slot")
    body.features.append(
        Feature("biscuit slot", "joint", sizes, (callout,), Operation("biscuit slot", dict(values)), other.name)
    )


def _slot(mouth: Vector, inward: Vector, across: Vector, size: BiscuitSize) -> cq.Solid:
    """The disc, sunk into the face, and no more of it than the part can be in the way of (standing frame)."""
    middle = mouth + inward * (size.deep - CUTTER / 2) - across * size.thick / 2
    disc = cq.Solid.makeCylinder(CUTTER / 2, size.thick, kernel.vector(middle), kernel.vector(across))
    face = kernel.Plane(mouth - inward * CLEAR, -inward)
    return kernel.sound(kernel.less(disc, kernel.beyond(face)), "the cutter of a biscuit slot")
