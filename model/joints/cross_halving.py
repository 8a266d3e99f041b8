"""Halvings: where two parts cross, each keeps its own half."""

from __future__ import annotations

from model.body import Body
from model.frames import axis_vector, round_point
from model.joints.joining import Habits, between, centre_of, crossings, reach_along, sink, widened
from model.piece import JointMade
from plans.joints.cross_halving import CrossHalving


def join(bodies: dict[str, list[Body]], joint: CrossHalving, number: int, habits: Habits) -> list[JointMade]:
    """Split the solid in which each pair cross along the side the notch opens on."""
    fit = 0.0 if joint.fit is None else joint.fit
    made = []
    for of, across, shared in list(crossings(bodies[joint.of], bodies[joint.across])):
        out = of.outward(joint.notch_in)
        low, high = reach_along(shared, out)
        split = high - joint.share * (high - low)
        for body, other, half, opens in (
            (of, across, between(shared, out, split, high + 1), out),
            (across, of, between(shared, out, low - 1, split), -out),
        ):
            run = body.at[:3, :3] @ axis_vector(body.runs)
            sink(body, widened(half, run, fit), other, "halving", {"share": joint.share}, opens)
        travel = max(high - split, split - low)
        where, way = centre_of(shared), round_point(out)
        made.append(JointMade("cross halving", number, of.name, across.name, where, way, travel, glued=True))
    return made
