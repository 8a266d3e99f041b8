"""A part notched over another, which stays whole."""

from __future__ import annotations

import numpy as np

from model.body import Body
from model.frames import Vector, axis_vector, round_point, side_vector
from model.joints.joining import Habits, centre_of, crossings, reach_along, sink, widened
from model.piece import JointMade
from plans.joints.notch_over import NotchOver
from plans.sides import SIDE_AXIS, SIDES


def join(bodies: dict[str, list[Body]], joint: NotchOver, number: int, habits: Habits) -> list[JointMade]:
    """The part gives way to the other, with room on both sides of the notch."""
    fit = habits.notch_fit if joint.fit is None else joint.fit
    made = []
    for of, over, shared in list(crossings(bodies[joint.of], bodies[joint.over])):
        opens = _opens(of, over)
        low, high = reach_along(shared, opens)
        run = of.at[:3, :3] @ axis_vector(of.runs)
        sink(of, widened([over.world(over.sharp)], run, fit), over, "notch", {"fit": fit}, opens)
        where = centre_of(shared)
        made.append(
            JointMade("notch over", number, of.name, over.name, where, round_point(opens), high - low, joint.glue)
        )
    return made


def _opens(of: Body, over: Body) -> Vector:
    """The side of the part that looks towards the middle of the one it sits on (piece frame)."""
    inside = of.at[:3, :3] @ of.blank.middle() + of.at[:3, 3]
    middle = over.at[:3, :3] @ over.blank.middle() + over.at[:3, 3]
    towards = middle - inside
    sides = [side for side in SIDES if SIDE_AXIS[side] not in (of.runs,)]
    run_of_over = over.at[:3, :3] @ axis_vector(over.runs)
    turned = [of.at[:3, :3] @ side_vector(side) for side in sides]
    # the notch crosses the other part: it cannot open along the way that one runs
    usable = [t for t in turned if abs(float(t @ run_of_over)) < 0.7]
    return max(usable or turned, key=lambda t: float(np.dot(t, towards)))
