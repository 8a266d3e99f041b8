"""Slots: long holes with round ends."""

from __future__ import annotations

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import Vector, axis_vector, round_point, side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.channels import must_leave
from model.shaping.hole import centre_sizes, middle_at
from model.shaping.shaped import Shaped
from plans.shaping.slot import Slot
from plans.sides import AXES, AXIS_NUMBER, SIDE_AXIS, Axis, Side, third_axis

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm a tool stands out on each side


def shape(body: Body, slot: Slot) -> Shaped:
    """One cutter with half-round ends."""
    depth = body.blank.size(SIDE_AXIS[slot.side])
    if slot.deep is not None:
        must_leave(depth - slot.deep, "slot")
    along = slot.along or body.runs
    centre = middle_at(body, slot.side, slot.at)
    must_lie_within(body, centre, slot.side, along, slot.long, slot.wide, "slot")
    reach = depth + CLEAR if slot.deep is None else slot.deep
    tool = long_hole(centre, slot.side, along, slot.long, slot.wide, reach)
    values: dict[str, Value] = {"long": slot.long, "wide": slot.wide, "deep": slot.deep}
    callout = Callout("slot", dict(values), round_point(centre), slot.side)
    sizes = slot_sizes(body, centre, slot.side, along, slot.long, slot.wide, "slot")
    return Shaped("sunk", (tool,), Feature("slot", "shaping", sizes, (callout,), Operation("slot", dict(values))))


def long_hole(centre: Vector, side: Side, along: Axis, long: float, wide: float, deep: float) -> cq.Solid:
    """A block with half-round ends, from a little outside `side` to `deep` below it (mm, standing frame)."""
    return kernel.long_hole(centre, -side_vector(side), axis_vector(along), long, wide, deep, CLEAR)


def must_lie_within(body: Body, centre: Vector, side: Side, along: Axis, long: float, wide: float, what: str) -> None:
    """A fault where a slot leaves too little wood beside it, or runs out of the part."""
    if long < wide - NEAR:
        raise KernelFault(f"the {what} is shorter than it is wide")
    for axis in AXES:
        if axis == SIDE_AXIS[side]:
            continue
        off = abs(float(centre[AXIS_NUMBER[axis]] - body.blank.middle()[AXIS_NUMBER[axis]]))
        must_leave((body.blank.size(axis) - (long if axis == along else wide)) / 2 - off, what)


def slot_sizes(
    body: Body, centre: Vector, side: Side, along: Axis, long: float, wide: float, name: str
) -> tuple[Size, ...]:
    """Its length and width seen from its side, and where its middle is."""
    sizes = []
    for axis, size in ((along, long), (third_axis(SIDE_AXIS[side], along), wide)):
        half = axis_vector(axis) * size / 2
        ends = round_point(centre - half), round_point(centre + half)
        sizes.append(Size(f"{name} {'length' if axis == along else 'width'}", size, axis, *ends, side, "size"))
    return (*sizes, *centre_sizes(body, [centre], side, name))
