"""Dowels: holes that face each other, bored from where two parts meet."""

from __future__ import annotations

from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.joints.joining import Habits
from model.kernel import KernelFault, spell
from model.loose_bodies import standing_rod
from model.meeting import Meeting, meetings
from model.piece import Callout, Feature, JointMade, LoosePiece, Operation, Value
from model.shaping.hole import bore, centre_sizes
from model.slopes import bored_values
from model.walls import needs_floor, needs_wall
from plans.joints.dowel import Dowel

NARROW = 2.0  # diameters: a narrower face is no place for a dowel; half the thickness is usual (common practice)
WALL = 3.0  # mm of wood beside a hole (common practice)
BETWEEN = 2.0  # diameters from centre to centre (common practice)
MOUTH = 0.5  # mm below the face, where the wall is measured


def join(bodies: dict[str, list[Body]], joint: Dowel, number: int, habits: Habits) -> list[JointMade]:
    """Bore both parts wherever the two kinds meet on a face wide enough."""
    relief = habits.relief if joint.relief is None else joint.relief
    into_deep = joint.long / 2 if joint.deep is None else joint.deep
    of_deep = joint.long - into_deep
    if of_deep <= 0:
        raise KernelFault(f"a dowel {spell(joint.long)} long has nothing left for the other part")
    found = meetings(bodies[joint.of], bodies[joint.into], NARROW * joint.diameter)
    made = []
    for meeting in found:
        points = meeting.row(joint.per_place, joint.from_ends)
        _needs_room(meeting, joint, points)
        for body, other, inward, deep in (
            (meeting.of, meeting.into, -meeting.inward, of_deep + relief),
            (meeting.into, meeting.of, meeting.inward, into_deep + relief),
        ):
            _bore(body, other, points, inward, joint.diameter, deep, meeting)
        standing = tuple(
            standing_rod(point - meeting.inward * of_deep, meeting.inward * joint.long, joint.diameter)
            for point in points
        )
        loose = LoosePiece("dowel", len(points), {"diameter": joint.diameter, "long": joint.long}, standing)
        names = (meeting.of.name, meeting.into.name)
        where, way = round_point(meeting.centre), round_point(meeting.inward)
        made.append(JointMade("dowel", number, *names, where, way, max(into_deep, of_deep), True, (loose,)))
    return made


def _needs_room(meeting: Meeting, joint: Dowel, points: list[Vector]) -> None:
    if len(points) > 1:
        apart = float((points[1] - points[0]) @ meeting.along)
        if apart < BETWEEN * joint.diameter:
            raise KernelFault(
                f"the dowels stand {spell(apart)} apart between {meeting.of.name} and {meeting.into.name}; "
                f"at least {spell(BETWEEN * joint.diameter)} is wanted"
            )


def _bore(
    body: Body, other: Body, points: list[Vector], inward: Vector, diameter: float, deep: float, meeting: Meeting
) -> None:
    what = f"the dowel hole for {other.name}"
    for way in (meeting.along, -meeting.along, meeting.across, -meeting.across):
        edges = [point + inward * MOUTH + way * diameter / 2 for point in points]
        needs_wall(body, what, edges, way, WALL)
    needs_floor(body, what, [point + inward * deep for point in points], inward)
    mouths = [apply(body.back, point) for point in points]
    into = turn(body.back, inward)
    body.cut([bore(mouth, into, diameter, deep) for mouth in mouths], f"the dowel holes in {body.name}")
    side = nearest_side(-into)
    values: dict[str, Value] = {"diameter": diameter, "deep": deep, "count": len(points), "for": other.kind}
    values |= bored_values(into, side)
    first, *row = map(round_point, mouths)
    callout = Callout("dowel hole", dict(values), first, side, row=tuple(row))
    sizes = centre_sizes(body, mouths, side, "dowel hole")
    body.features.append(
        Feature("dowel hole", "joint", sizes, (callout,), Operation("dowel hole", dict(values)), other.name)
    )
