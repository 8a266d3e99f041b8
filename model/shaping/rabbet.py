"""Rabbets: a step along an edge."""

from __future__ import annotations

import numpy as np

from model import kernel
from model.body import Body
from model.frames import round_point
from model.piece import Callout, Feature, Operation, Value
from model.shaping.channels import CLEAR, channel_sizes, must_leave
from model.shaping.shaped import Shaped
from model.shaping.stops import stop_at, stop_values
from plans.shaping.rabbet import Rabbet
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, third_axis


def shape(body: Body, rabbet: Rabbet) -> Shaped:
    """A block along the arris of `side` and `edge`."""
    low, high = body.blank.low - CLEAR, body.blank.high + CLEAR
    for side, size in ((rabbet.side, rabbet.deep), (rabbet.edge, rabbet.wide)):
        must_leave(body.blank.size(SIDE_AXIS[side]) - size, "rabbet")
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        (low if SIDE_SIGN[side] > 0 else high)[number] = body.blank.at(side) - SIDE_SIGN[side] * size
    stop_at(body, low, high, rabbet.stop)
    values: dict[str, Value] = {"side": rabbet.side, "edge": rabbet.edge, "wide": rabbet.wide, "deep": rabbet.deep}
    values.update(stop_values(rabbet.stop))
    first, last = np.maximum(low, body.blank.low), np.minimum(high, body.blank.high)
    fills = round_point(first), round_point(last)
    callout = Callout("rabbet", dict(values), round_point((first + last) / 2), rabbet.side, fills)
    along = third_axis(SIDE_AXIS[rabbet.side], SIDE_AXIS[rabbet.edge])
    sizes = channel_sizes(body, low, high, rabbet.side, along, "rabbet")
    feature = Feature("rabbet", "shaping", sizes, (callout,), Operation("rabbet", dict(values)))
    return Shaped("sunk", (kernel.box(low, high),), feature)
