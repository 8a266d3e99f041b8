"""Bridles: where two parts cross, a tongue stays in one and the rest in the other."""

from __future__ import annotations

import cadquery as cq

from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.joints.joining import Habits, between, centre_of, crossings, reach_along, sink, widened
from model.kernel import KernelFault, spell
from model.piece import JointMade
from plans.joints.bridle import Bridle
from plans.sides import sides_of


def join(bodies: dict[str, list[Body]], joint: Bridle, number: int, habits: Habits) -> list[JointMade]:
    """Share out the solid in which each pair cross: the middle slab to `of`, the two cheeks to `into`."""
    fit = habits.fit if joint.fit is None else joint.fit
    made = []
    for of, into, shared in list(crossings(bodies[joint.of], bodies[joint.into])):
        direction = of.at[:3, :3] @ -side_vector(sides_of(of.thick)[0])
        low, high = reach_along(shared, direction)
        if joint.thick >= high - low:
            raise KernelFault(f"a tongue {spell(joint.thick)} thick leaves no cheek where {of.name} meets {into.name}")
        middle = (low + high) / 2
        tongue = (middle - joint.thick / 2, middle + joint.thick / 2)
        slab = between(shared, direction, *tongue)
        cheeks = between(shared, direction, low - 1, tongue[0]) + between(shared, direction, tongue[1], high + 1)
        slide = _slide(of, into)
        sink(into, widened(slab, direction, fit), of, "bridle slot", {"thick": joint.thick}, slide)
        for cheek in cheeks:
            sink(of, [cheek], into, "bridle cheek", {"thick": joint.thick}, direction * _sign(cheek, direction, middle))
        travel = max(reach_along(shared, slide)) - min(reach_along(shared, slide))
        where = centre_of(shared)
        made.append(JointMade("bridle", number, of.name, into.name, where, round_point(-slide), travel, glued=True))
    return made


def _slide(of: Body, into: Body) -> Vector:
    """Out of the open end of the slot: the way the `into` part runs, towards the nearer end."""
    low, high = into.ends
    centre = of.at[:3, 3]
    ends = {end: into.at[:3, :3] @ (side_vector(end) * abs(into.blank.at(end))) + into.at[:3, 3] for end in (low, high)}
    nearest = min(ends, key=lambda end: float(((ends[end] - centre) ** 2).sum()))
    return into.outward(nearest)


def _sign(cheek: cq.Shape, direction: Vector, middle: float) -> float:
    low, high = reach_along(cheek, direction)
    return 1.0 if (low + high) / 2 > middle else -1.0
