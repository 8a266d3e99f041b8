"""Scribed ends and edges: one part gives way to the solid of another, and ends there."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body, extents_of
from model.brep import compound
from model.frames import round_point, side_vector
from model.joints.joining import Habits, centre_of, crossings
from model.kernel import KernelFault
from model.piece import Callout, Feature, JointMade, Operation, Size, Value
from plans.joints.scribe import Scribe
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side

LEAST = 0.05  # mm: a profile less deep is a plain square end
KEPT = 0.5  # of the part that has to be left: more than this taken away is no scribed end


def join(bodies: dict[str, list[Body]], joint: Scribe, number: int, habits: Habits) -> list[JointMade]:
    """Cut every `of` part to each `to` part that it runs into on a side named."""
    made = []
    for side in joint.side:
        for of, to, shared in list(crossings(bodies[joint.of], bodies[joint.to])):
            out = of.outward(side)
            middle = of.at[:3, :3] @ of.blank.middle() + of.at[:3, 3]
            where = centre_of(shared)
            if float((np.array(where) - middle) @ out) <= 0 or not _still_shared(of, to):
                continue
            deep = _cut(of, to, side)
            made.append(JointMade("scribe", number, of.name, to.name, where, round_point(out), deep, joint.glue))
    return made


def _still_shared(of: Body, to: Body) -> bool:
    """Whether the two lie through each other yet: one cut may take away all they share."""
    return bool(kernel.common(of.world(of.sharp), to.world(to.sharp)))


def _cut(of: Body, to: Body, side: Side) -> float:
    """Take the other part away, and what is left beyond it; gives the depth of the profile (mm)."""
    before = of.sharp
    tool = of.local(to.world(to.sharp))
    out = side_vector(side)
    left = sorted(kernel.less(before, tool), key=lambda solid: float(kernel.array(solid.Center()) @ out))
    what = f"scribing the {side} of {of.name} to {to.name}"
    if not left or left[0].Volume() < KEPT * before.Volume():
        share = left[0].Volume() / before.Volume() * 100 if left else 0.0
        raise KernelFault(f"{what} leaves {share:.0f} % of it; at least {KEPT * 100:.0f} is wanted")
    of.cut([tool, *left[1:]], what)
    of.blank = extents_of(of.sharp)  # what is set out later is measured from the new end
    return _note(of, to, side, before)


def _note(of: Body, to: Body, side: Side, before: cq.Solid) -> float:
    axis = SIDE_AXIS[side]
    number, sign = AXIS_NUMBER[axis], side_vector(side)[AXIS_NUMBER[axis]]
    taken = extents_of(compound(kernel.less(before, of.sharp)))
    tip = of.blank.at(side)
    foot = float((taken.low if sign > 0 else taken.high)[number])
    deep = max(0.0, float((tip - foot) * sign))
    seen = of.datum_side(of.thick if axis != of.thick else of.wide)
    start, end = taken.middle(), taken.middle()
    start[number], end[number] = foot, tip
    sizes: tuple[Size, ...] = ()
    if deep > LEAST:
        sizes = (Size("scribe depth", deep, axis, round_point(start), round_point(end), seen, "size"),)
    values: dict[str, Value] = {
        "for": to.kind,
        "side": side,
        "deep": deep,
        "what": "end" if axis == of.runs else "edge",
    }
    callout = Callout("scribe", dict(values), round_point((start + end) / 2), seen)
    of.features.append(Feature("scribe", "joint", sizes, (callout,), Operation("scribe", dict(values)), to.name))
    return deep
