"""Recesses: shallow beds, rectangular or round."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size, Value
from model.recess import recess_sizes
from model.shaping.channels import must_leave
from model.shaping.hole import bore, centre_sizes, middle_at
from model.shaping.shaped import Shaped
from plans.shaping.recess import Recess
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, third_axis

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm a tool stands outside the part


def shape(body: Body, recess: Recess) -> Shaped:
    """A cylinder or a block with its corners as the cutter leaves them."""
    must_leave(body.blank.size(SIDE_AXIS[recess.side]) - recess.deep, "recess")
    values: dict[str, Value] = {"deep": recess.deep, "side": recess.side}
    if recess.diameter is not None:
        tool, point, sizes = _round(body, recess, recess.diameter)
        values["diameter"] = recess.diameter
    else:
        assert recess.long is not None and recess.wide is not None
        tool, point, sizes = _square(body, recess, recess.long, recess.wide)
        values |= {"long": recess.long, "wide": recess.wide, "corners": recess.corners}
    callout = Callout("recess", dict(values), round_point(point), recess.side)
    feature = Feature("recess", "shaping", sizes, (callout,), Operation("recess", dict(values)))
    return Shaped("sunk", (tool,), feature)


def _round(body: Body, recess: Recess, diameter: float) -> tuple[cq.Solid, Vector, tuple[Size, ...]]:
    centre = middle_at(body, recess.side, recess.at)
    for axis in _across(body, recess):
        number = AXIS_NUMBER[axis]
        off = abs(float(centre[number] - body.blank.middle()[number]))
        must_leave((body.blank.size(axis) - diameter) / 2 - off, "recess")
    tool = bore(centre, -side_vector(recess.side), diameter, recess.deep)
    return tool, centre, centre_sizes(body, [centre], recess.side, "recess")


def _square(body: Body, recess: Recess, long: float, wide: float) -> tuple[cq.Solid, Vector, tuple[Size, ...]]:
    low, high = body.blank.middle(), body.blank.middle()
    depth = AXIS_NUMBER[SIDE_AXIS[recess.side]]
    mouth = body.blank.at(recess.side)
    low[depth], high[depth] = sorted((mouth, mouth - SIDE_SIGN[recess.side] * recess.deep))
    past = np.zeros(3), np.zeros(3)  # how far the tool stands outside the bed at its low and its high walls
    past[1 if SIDE_SIGN[recess.side] > 0 else 0][depth] = CLEAR
    for axis, size in zip(_across(body, recess), (long, wide), strict=True):
        number = AXIS_NUMBER[axis]
        low[number] -= size / 2
        for side, distance in recess.at.items():
            if SIDE_AXIS[side] == axis:
                near = body.blank.at(side) - SIDE_SIGN[side] * distance
                low[number] = near if SIDE_SIGN[side] < 0 else near - size
        high[number] = low[number] + size
        _must_be_inside(body, axis, low, high)
        # where it runs out, the rounded corners of the tool lie outside the part
        out = CLEAR + (recess.corners or 0.0)
        past[0][number] = out if low[number] < body.blank.low[number] + NEAR else 0.0
        past[1][number] = out if high[number] > body.blank.high[number] - NEAR else 0.0
    tool = kernel.box(low - past[0], high + past[1])
    if recess.corners is not None:
        if recess.corners > min(long, wide) / 2 - NEAR:
            raise KernelFault("the corners of the recess are rounder than it is wide")
        ahead = [n for n in range(3) if n != depth]
        edges = [edge for edge in tool.Edges() if all(abs(edge.tangentAt(0).toTuple()[n]) < NEAR for n in ahead)]
        tool = kernel.one_solid(tool.fillet(recess.corners, edges), "the recess")
    return tool, (low + high) / 2, recess_sizes(body, low, high, recess.side, "recess")


def _across(body: Body, recess: Recess) -> tuple[Axis, Axis]:
    """The directions its length and its width are measured in."""
    depth = SIDE_AXIS[recess.side]
    along = body.wide if depth == body.runs else body.runs
    return along, third_axis(depth, along)


def _must_be_inside(body: Body, axis: Axis, low: Vector, high: Vector) -> None:
    reach = body.blank.of(axis)
    number = AXIS_NUMBER[axis]
    if low[number] < reach[0] - NEAR or high[number] > reach[1] + NEAR:
        raise KernelFault(f"the recess runs out of the part {axis}; move it in, or make it smaller")
