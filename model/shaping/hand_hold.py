"""Hand holds: a slot right through, its rim eased on both faces."""

from __future__ import annotations

import cadquery as cq
import numpy as np
from OCP.StdFail import StdFail_NotDone

from model import kernel
from model.body import Body
from model.frames import Vector, round_point
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Value
from model.shaping.channels import must_leave
from model.shaping.hole import middle_at
from model.shaping.shaped import Shaped
from model.shaping.slot import CLEAR, long_hole, must_lie_within, slot_sizes
from plans.shaping.hand_hold import HandHold
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Axis

NEAR = 1e-6  # mm


def shape(body: Body, hold: HandHold) -> Shaped:
    """The opening in both bodies; its rounded rim in the eased one."""
    depth = body.blank.size(SIDE_AXIS[hold.side])
    along = hold.along or body.runs
    centre = middle_at(body, hold.side, hold.at)
    eased = hold.eased or 0.0
    must_lie_within(body, centre, hold.side, along, hold.long + 2 * eased, hold.wide + 2 * eased, "hand hold")
    must_leave(depth - 2 * eased, "rounding of the hand hold")
    tool = long_hole(centre, hold.side, along, hold.long, hold.wide, depth + CLEAR)
    flared = (_flared(body, centre, hold, along, tool),) if hold.eased else ()
    values: dict[str, Value] = {"long": hold.long, "wide": hold.wide, "eased": hold.eased}
    callout = Callout("hand hold", dict(values), round_point(centre), hold.side)
    sizes = slot_sizes(body, centre, hold.side, along, hold.long, hold.wide, "hand hold")
    feature = Feature("hand hold", "shaping", sizes, (callout,), Operation("hand hold", dict(values)))
    return Shaped("sunk", (tool,), feature, eased_tools=flared)


def _flared(body: Body, centre: Vector, hold: HandHold, along: Axis, tool: cq.Solid) -> cq.Solid:
    """The opening as it is with both rims rounded: a plate, less what is left of it bored and rounded by the kernel."""
    assert hold.eased is not None
    reach = np.full(3, hold.long)  # far enough round the opening
    number = AXIS_NUMBER[SIDE_AXIS[hold.side]]
    low, high = centre - reach, centre + reach
    low[number], high[number] = body.blank.low[number], body.blank.high[number]
    plate = kernel.box(low, high)
    bored = kernel.cut(plate, [tool], "the hand hold")
    rims = [edge for edge in bored.Edges() if _on_a_face(edge, number, low, high)]
    try:
        rounded = kernel.one_solid(bored.fillet(hold.eased, rims), "the rounding of the hand hold")
    except (StdFail_NotDone, ValueError):
        raise KernelFault("the rim of the hand hold cannot be rounded; take a smaller radius") from None
    return kernel.cut(plate, [rounded], "the hand hold")


def _on_a_face(edge: cq.Edge, number: int, low: Vector, high: Vector) -> bool:
    """Whether an edge lies in a face of the plate, and not round its outside."""
    middle = edge.Center().toTuple()
    inside = all(low[n] + NEAR < middle[n] < high[n] - NEAR for n in range(3) if n != number)
    return inside and min(abs(middle[number] - low[number]), abs(middle[number] - high[number])) < NEAR
