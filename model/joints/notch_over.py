"""A part notched over another, which stays whole."""

from __future__ import annotations

import cadquery as cq

from model.body import Body, extents_of
from model.frames import Vector, axis_vector, round_point
from model.joints.joining import TOUCH, Habits, centre_of, crossings, reach_along, sink, widened
from model.piece import JointMade
from plans.joints.notch_over import NotchOver
from plans.sides import OPPOSITE, SIDE_AXIS, SIDES


def join(bodies: dict[str, list[Body]], joint: NotchOver, number: int, habits: Habits) -> list[JointMade]:
    """The part gives way to the other, with room on both sides of the notch."""
    fit = habits.notch_fit if joint.fit is None else joint.fit
    made = []
    for of, over, shared in list(crossings(bodies[joint.of], bodies[joint.over])):
        opens = _opens(of, over, shared)
        low, high = reach_along(shared, opens)
        run = of.at[:3, :3] @ axis_vector(of.runs)
        sink(of, widened([over.world(over.sharp)], run, fit), over, "notch", {"fit": fit}, opens)
        where = centre_of(shared)
        made.append(
            JointMade("notch over", number, of.name, over.name, where, round_point(opens), high - low, joint.glue)
        )
    return made


def _opens(of: Body, over: Body, shared: cq.Shape) -> Vector:
    """The way out of the notch (piece frame): a side that it breaks through on its own, not together with the opposite.

    Where that leaves a choice, or nothing, the side that looks towards the middle of the part it sits on.
    """
    reach = extents_of(of.local(shared))
    sides = [side for side in SIDES if SIDE_AXIS[side] != of.runs]
    broken = [side for side in sides if abs(reach.at(side) - of.blank.at(side)) < TOUCH]
    alone = [side for side in broken if OPPOSITE[side] not in broken]
    inside = of.at[:3, :3] @ of.blank.middle() + of.at[:3, 3]
    towards = over.at[:3, :3] @ over.blank.middle() + over.at[:3, 3] - inside
    ways = [of.outward(side) for side in alone or broken or sides]
    return max(ways, key=lambda way: float(way @ towards))
