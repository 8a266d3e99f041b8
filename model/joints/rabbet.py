"""Rabbet joints: a part let into steps along the edges or ends of the parts round it."""

from __future__ import annotations

from model.body import Body
from model.frames import round_point, side_vector
from model.joints.framed import give_edge, grown, square_seams, taker
from model.joints.joining import Habits
from model.joints.let_in import Seam, cheeks, groove, wood_along
from model.kernel import KernelFault, spell
from model.piece import JointMade, Value
from plans.joints.rabbet import Rabbet
from plans.sides import Side, sides_of

NEAR_EDGE = 25.0  # mm: further than this from an edge, the step would be a housing
PAST = 1.0  # mm the tool goes past the edge that the step is open towards


def join(bodies: dict[str, list[Body]], joint: Rabbet, number: int, habits: Habits) -> list[JointMade]:
    """Let in every end and edge that lies against one of the other kinds of part, near an edge of it."""
    around = [body for kind in joint.into for body in bodies[kind]]
    made = []
    for part in bodies[joint.of]:
        found = square_seams(part, around)
        if not found:
            continue
        low, high = grown(part, found, cheeks(part, None, None), joint.deep)
        thick = part.blank.size(part.thick)
        for seam in found:
            opens, past = _opens(seam, joint.deep)
            room = dict.fromkeys((seam.side, *sides_of(seam.along)), joint.room)
            tool = taker(seam, low, high, {**room, opens: past + PAST})
            deep = joint.deep + joint.room
            values: dict[str, Value] = {"wide": thick + past, "deep": deep}
            groove(seam, tool, seam.gap + deep, "rabbet", values)
            way = round_point(-part.outward(opens))
            names = (part.name, seam.into.name)
            made.append(JointMade("rabbet", number, *names, seam.where, way, thick + past, joint.glue))
        give_edge(part, found, low, high, "rabbeted edge")
    return made


def _opens(seam: Seam, deep: float) -> tuple[Side, float]:
    """The face of the part towards which its step is open, and how far the edge of the other part lies beyond it."""
    of = seam.of
    inside = (seam.low + seam.high) / 2 + seam.face.normal * (seam.gap + deep / 2)
    half = of.blank.size(of.thick) / 2
    walls = {
        side: wood_along(seam.into, of, inside + side_vector(side) * half, side_vector(side))
        for side in sides_of(of.thick)
    }
    opens, closed = sorted(walls, key=lambda side: walls[side])
    if walls[opens] > NEAR_EDGE:
        raise KernelFault(
            f"{of.name} meets {seam.into.name} {spell(walls[opens])} from its edge; a rabbet lies within "
            f"{spell(NEAR_EDGE)} of it, and further in a housing is wanted"
        )
    if walls[closed] <= 0:
        raise KernelFault(f"the rabbet leaves no shoulder in {seam.into.name} for {of.name}")
    return opens, walls[opens]
