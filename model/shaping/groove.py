"""Grooves ploughed along the grain."""

from __future__ import annotations

import numpy as np

from model import kernel
from model.body import Body
from model.frames import round_point
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Value
from model.shaping.channels import CLEAR, channel_sizes, must_leave
from model.shaping.shaped import Shaped
from model.shaping.stops import stop_at, stop_values
from plans.shaping.groove import Groove
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, third_axis

NEAR = 1e-6  # mm


def shape(body: Body, groove: Groove) -> Shaped:
    """A block let in from `side`, along the part."""
    depth_axis = SIDE_AXIS[groove.side]
    must_leave(body.blank.size(depth_axis) - groove.deep, "groove")
    low, high = body.blank.low - CLEAR, body.blank.high + CLEAR
    depth = AXIS_NUMBER[depth_axis]
    floor = body.blank.at(groove.side) - SIDE_SIGN[groove.side] * groove.deep
    (low if SIDE_SIGN[groove.side] > 0 else high)[depth] = floor
    across = third_axis(body.runs, depth_axis)
    number = AXIS_NUMBER[across]
    low[number] = body.blank.middle()[number] - groove.wide / 2
    for side, distance in groove.at.items():
        near = body.blank.at(side) - SIDE_SIGN[side] * distance
        low[number] = near if SIDE_SIGN[side] < 0 else near - groove.wide
    high[number] = low[number] + groove.wide
    reach = body.blank.of(across)
    if low[number] < reach[0] - NEAR or high[number] > reach[1] + NEAR:
        raise KernelFault("the groove runs out of the part; move it in, or make it narrower")
    stop_at(body, low, high, groove.stop)
    values: dict[str, Value] = {"side": groove.side, "wide": groove.wide, "deep": groove.deep}
    values.update(stop_values(groove.stop))
    first, last = np.maximum(low, body.blank.low), np.minimum(high, body.blank.high)
    fills = round_point(first), round_point(last)
    callout = Callout("groove", dict(values), round_point((first + last) / 2), groove.side, fills)
    sizes = channel_sizes(body, low, high, groove.side, body.runs, "groove")
    feature = Feature("groove", "shaping", sizes, (callout,), Operation("groove", dict(values)))
    return Shaped("sunk", (kernel.box(low, high),), feature)
