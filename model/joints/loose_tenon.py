"""Loose tenons: a mortise in each of two parts, cut from one tool where they meet."""

from __future__ import annotations

import itertools

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.joints.joining import Habits
from model.kernel import KernelFault, spell
from model.loose_bodies import standing_prism
from model.meeting import Meeting, meetings
from model.piece import Callout, Feature, JointMade, LooseBody, LoosePiece, Operation, Size, Value
from model.recess import placed
from model.walls import needs_floor, needs_wall
from plans.joints.loose_tenon import LooseTenon
from plans.sides import AXES, SIDE_AXIS

CLEAR = 1.0  # mm the tool begins outside the face
MOUTH = 0.5  # mm below the face, where the wall is measured


def join(bodies: dict[str, list[Body]], joint: LooseTenon, number: int, habits: Habits) -> list[JointMade]:
    """Mortise both parts wherever the two kinds meet on a face wider than the tenon is thick."""
    fit = habits.fit if joint.fit is None else joint.fit
    relief = habits.relief if joint.relief is None else joint.relief
    into_deep = joint.long / 2 if joint.deep is None else joint.deep
    of_deep = joint.long - into_deep
    if of_deep <= 0:
        raise KernelFault(f"a tenon {spell(joint.long)} long has nothing left for the other part")
    made = []
    for meeting in meetings(bodies[joint.of], bodies[joint.into], joint.thick):
        points = meeting.row(joint.per_place, joint.from_ends)
        _needs_room(meeting, joint, points)
        for body, inward, deep in (
            (meeting.of, -meeting.inward, of_deep + relief),
            (meeting.into, meeting.inward, into_deep + relief),
        ):
            for point in points:
                _mortise(body, meeting, point, inward, joint, fit, deep)
        values: dict[str, Value] = {
            "thick": joint.thick,
            "wide": joint.wide,
            "long": joint.long,
            "wood": meeting.into.spec.wood,
        }
        standing = tuple(_body(meeting, point, joint, of_deep) for point in points)
        loose = LoosePiece("loose tenon", len(points), values, standing)
        names = (meeting.of.name, meeting.into.name)
        where, way = round_point(meeting.centre), round_point(meeting.inward)
        made.append(JointMade("loose tenon", number, *names, where, way, max(into_deep, of_deep), True, (loose,)))
    return made


def _body(meeting: Meeting, point: Vector, joint: LooseTenon, of_deep: float) -> LooseBody:
    """The tenon where it stands, `of_deep` of it in the first part."""
    half_wide, half_thick = meeting.along * joint.wide / 2, meeting.across * joint.thick / 2
    start = point - meeting.inward * of_deep
    return standing_prism(
        [start + s * half_wide + t * half_thick for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))],
        meeting.inward * joint.long,
        meeting.inward,
    )


def _needs_room(meeting: Meeting, joint: LooseTenon, points: list[Vector]) -> None:
    if len(points) < 2:
        return
    between = float((points[1] - points[0]) @ meeting.along) - joint.wide
    if between < joint.thick:
        raise KernelFault(
            f"the loose tenons leave {spell(between)} between two mortises in {meeting.into.name}; "
            f"at least {spell(joint.thick)} is wanted"
        )


def _mortise(
    body: Body, meeting: Meeting, point: Vector, inward: Vector, joint: LooseTenon, fit: float, deep: float
) -> None:
    """One mortise; its walls and its floor are judged before it is cut."""
    half_wide, half_thick = joint.wide / 2 + fit, joint.thick / 2 + fit
    what = "the mortise for a loose tenon"
    needs_floor(body, what, [point + inward * deep], inward)
    for way, half, other, reach in (
        (meeting.along, half_wide, meeting.across, half_thick),
        (meeting.across, half_thick, meeting.along, half_wide),
    ):
        for sign in (-1.0, 1.0):
            edge = point + way * sign * half
            spots = [edge + other * s * reach + inward * at for s in (-1.0, 1.0) for at in (MOUTH, deep)]
            needs_wall(body, what, spots, way * sign)
    low, high = np.array([-half_wide, -half_thick, -CLEAR]), np.array([half_wide, half_thick, deep])
    base = cq.Plane(origin=kernel.vector(point), xDir=kernel.vector(meeting.along), normal=kernel.vector(inward))
    body.cut([body.local(kernel.box(low, high).moved(base.location))], f"{what} in {body.name}")
    mouth = [
        apply(body.back, point + meeting.along * s * joint.wide / 2 + meeting.across * t * joint.thick / 2)
        for s, t in itertools.product((-1.0, 1.0), repeat=2)
    ]
    _note(body, np.array(mouth), turn(body.back, inward), joint, deep, meeting)


def _note(body: Body, mouth: Vector, inward: Vector, joint: LooseTenon, deep: float, meeting: Meeting) -> None:
    side = nearest_side(-inward)
    sizes: list[Size] = []
    for axis in AXES:
        if axis != SIDE_AXIS[side]:
            sizes += placed(body, mouth.min(axis=0), mouth.max(axis=0), axis, side, "mortise")
    values: dict[str, Value] = {
        "for": "loose tenon",
        "thick": joint.thick,
        "wide": joint.wide,
        "deep": deep,
        "side": side,
        "turned": 0.0,
        "off square": 0.0,
    }
    fills = round_point(mouth.min(axis=0)), round_point(mouth.max(axis=0))
    callout = Callout("mortise", dict(values), round_point(mouth.mean(axis=0)), side, fills)
    other = meeting.into if body is meeting.of else meeting.of
    operation = Operation("mortise", dict(values))
    body.features.append(Feature("mortise", "joint", tuple(sizes), (callout,), operation, other.name))
