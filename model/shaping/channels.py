"""What a groove and a rabbet have in common: a square channel that runs along one direction of the part."""

from __future__ import annotations

import numpy as np

from model.body import Body
from model.frames import Vector
from model.kernel import KernelFault, spell
from model.piece import Size
from model.recess import NOTHING, placed, span
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Axis, Side, side_of, third_axis

CLEAR = 1.0  # mm a tool stands outside the part
LEAST_LEFT = 2.0  # mm of wood that must stay behind and beside a channel (common practice: thinner breaks off)


def channel_sizes(body: Body, low: Vector, high: Vector, opens: Side, along: Axis, name: str) -> tuple[Size, ...]:
    """Sizes of a channel (standing frame, mm): width and depth seen along it; its stops seen from its open side."""
    low, high = np.maximum(low, body.blank.low), np.minimum(high, body.blank.high)
    across = third_axis(SIDE_AXIS[opens], along)
    profile = body.datum_side(along) if along != body.runs else side_of(along, 1)
    number = AXIS_NUMBER[across]
    at_an_edge = min(low[number] - body.blank.low[number], body.blank.high[number] - high[number]) < NOTHING
    sizes = [size for size in placed(body, low, high, across, profile, name) if size.role == "size" or not at_an_edge]
    sizes.append(span(f"{name} depth", low, high, SIDE_AXIS[opens], profile, low))
    if high[AXIS_NUMBER[along]] - low[AXIS_NUMBER[along]] < body.blank.size(along) - NOTHING:
        sizes += placed(body, low, high, along, opens, name)
    return tuple(sizes)


def must_leave(left: float, what: str) -> None:
    """A fault where less than the least wood stays."""
    if left < LEAST_LEFT:
        raise KernelFault(f"the {what} leaves {spell(left)} of wood; at least {spell(LEAST_LEFT)} is wanted")
