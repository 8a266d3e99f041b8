"""Sliding dovetails: a dovetailed tongue in a groove across another part."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.joints.dovetail import ratio
from model.joints.joining import Habits
from model.joints.let_in import LEAST_WALL, Seam, cheeks, groove, grow, seams, section, tongue_solid, wood_along
from model.kernel import KernelFault, Plane, spell
from model.piece import JointMade, Value
from plans.joints.sliding_dovetail import SlidingDovetail
from plans.sides import AXIS_NUMBER, sides_of


def join(bodies: dict[str, list[Body]], joint: SlidingDovetail, number: int, habits: Habits) -> list[JointMade]:
    """A dovetailed tongue on every end that lies against the other kind of part, and a groove for it."""
    fit = habits.fit if joint.fit is None else joint.fit
    made = []
    for seam in seams(bodies[joint.of], bodies[joint.into]):
        cheek = cheeks(seam.of, joint.thick, None)
        reach = seam.gap + joint.deep
        neck = cheek[1] - cheek[0] - 2 * reach * ratio(joint.slope)
        if neck < LEAST_WALL:
            raise KernelFault(
                f"the neck of the dovetail of {seam.of.name} is {spell(max(neck, 0.0))}; at least {spell(LEAST_WALL)} "
                "is wanted"
            )
        low, high = section(seam, cheek, joint.stopped)
        values: dict[str, Value] = {
            "wide": cheek[1] - cheek[0],
            "neck": neck,
            "deep": joint.deep,
            "slope": joint.slope,
            "stopped": ", ".join(joint.stopped),
        }
        _must_be_open(seam, low, high, joint)
        tool = _tongue(seam, low, high, reach, joint.slope, fit)
        groove(seam, tool, reach, "dovetail housing", values)
        solid = _tongue(seam, low, high, reach, joint.slope, 0.0)
        grow(seam, low, high, reach, "dovetail tongue", solid, {"neck": neck, "slope": joint.slope})
        way = round_point(-seam.of.outward(joint.slides_in_from))
        along = AXIS_NUMBER[seam.along]
        travel = float(high[along] - low[along])
        names = (seam.of.name, seam.into.name)
        made.append(JointMade("sliding dovetail", number, *names, seam.where, way, travel, joint.glue))
    return made


def _tongue(seam: Seam, low: Vector, high: Vector, reach: float, slope: str, room: float) -> cq.Solid:
    """The tongue, full at its end and narrower at its shoulder, with room all round (standing frame)."""
    block = tongue_solid(seam, low, high, reach, room)
    number = AXIS_NUMBER[seam.of.thick]
    tip = seam.face.point + seam.face.normal * reach
    cutters = []
    for side in sides_of(seam.of.thick):
        out = side_vector(side)
        at = float((high if out[number] > 0 else low)[number]) + float(out[number]) * room
        point = tip.copy()
        point[number] = at
        leaning = out - seam.face.normal * ratio(slope)
        cutters.append(kernel.beyond(Plane(point, leaning / np.linalg.norm(leaning))))
    return kernel.sound(kernel.less(block, *cutters), f"the dovetail of {seam.of.name}")


def _must_be_open(seam: Seam, low: Vector, high: Vector, joint: SlidingDovetail) -> None:
    """The groove has to come out at the side the part is slid in from."""
    side = joint.slides_in_from
    along = AXIS_NUMBER[seam.along]
    start = (low + high) / 2
    number = AXIS_NUMBER[seam.of.thick]
    start[number] = (low[number] + high[number]) / 2
    start = start - seam.face.normal * seam.face.height(start) + seam.face.normal * (seam.gap + joint.deep / 2)
    start[along] = (high if side_vector(side)[along] > 0 else low)[along]
    wall = wood_along(seam.into, seam.of, start, side_vector(side))
    if wall > 0.01:
        raise KernelFault(
            f"{seam.of.name} cannot be slid in from the {side}: {spell(wall)} of {seam.into.name} stand in its way"
        )
