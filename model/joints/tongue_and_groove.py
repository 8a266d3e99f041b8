"""Tongue and groove: boards joined along their edges."""

from __future__ import annotations

from model.body import Body
from model.frames import round_point
from model.joints.joining import Habits
from model.joints.let_in import cheeks, groove, grow, seams, section, tongue_solid
from model.kernel import KernelFault, spell
from model.piece import JointMade, Value
from plans.joints.tongue_and_groove import TongueAndGroove


def join(bodies: dict[str, list[Body]], joint: TongueAndGroove, number: int, habits: Habits) -> list[JointMade]:
    """A tongue on every edge that lies along the other kind of part, and a groove for it."""
    fit = habits.fit if joint.fit is None else joint.fit
    relief = habits.relief if joint.relief is None else joint.relief
    made = []
    for seam in seams(bodies[joint.of], bodies[joint.into], () if joint.edge is None else (joint.edge,)):
        cheek = cheeks(seam.of, joint.thick, joint.flush)
        if joint.long <= seam.gap:
            raise KernelFault(f"the tongue of {seam.of.name} does not reach {seam.into.name}, {spell(seam.gap)} away")
        low, high = section(seam, cheek, {})
        deep = joint.long - seam.gap + relief
        values: dict[str, Value] = {"wide": joint.thick, "deep": deep}
        groove(seam, tongue_solid(seam, low, high, joint.long + relief, fit), joint.long + relief, "groove", values)
        grow(seam, low, high, joint.long, "edge tongue")
        travel = joint.long - seam.gap
        names = (seam.of.name, seam.into.name)
        way = round_point(seam.direction)
        made.append(JointMade("tongue and groove", number, *names, seam.where, way, travel, joint.glue))
    return made
