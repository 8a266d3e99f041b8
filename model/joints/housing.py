"""Housings: an end let into a groove across another part."""

from __future__ import annotations

from model.body import Body
from model.frames import round_point
from model.joints.joining import Habits
from model.joints.let_in import cheeks, groove, grow, seams, section, tongue_solid
from model.piece import JointMade, Value
from plans.joints.housing import Housing


def join(bodies: dict[str, list[Body]], joint: Housing, number: int, habits: Habits) -> list[JointMade]:
    """Let in every end that lies against the other kind of part."""
    fit = habits.fit if joint.fit is None else joint.fit
    made = []
    for seam in seams(bodies[joint.of], bodies[joint.into]):
        cheek = cheeks(seam.of, joint.thick, joint.flush)
        low, high = section(seam, cheek, joint.stopped)
        reach = seam.gap + joint.deep
        tool = tongue_solid(seam, low, high, reach + joint.relief, fit)
        values: dict[str, Value] = {"wide": cheek[1] - cheek[0], "deep": joint.deep + joint.relief}
        if joint.stopped:
            values["stopped"] = ", ".join(joint.stopped)
        groove(seam, tool, reach + joint.relief, "housing", values)
        grow(seam, low, high, reach, "housed end" if joint.thick is None else "housed tongue")
        way = round_point(seam.direction)
        names = (seam.of.name, seam.into.name)
        made.append(JointMade("housing", number, *names, seam.where, way, joint.deep, joint.glue))
    return made
