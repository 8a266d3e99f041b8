"""Frame and panel: a panel in grooves, with room to move."""

from __future__ import annotations

from model.body import Body
from model.frames import round_point
from model.joints.framed import across, give_edge, grown, square_seams, taker
from model.joints.joining import Habits
from model.joints.let_in import Seam, cheeks, groove
from model.kernel import KernelFault, spell
from model.piece import JointMade, Value
from plans.joints.grooved_panel import GroovedPanel
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side, sides_of

CLEAR = 1.0  # mm a groove that runs out goes past the end


def join(bodies: dict[str, list[Body]], joint: GroovedPanel, number: int, habits: Habits) -> list[JointMade]:
    """Grow each panel into the frame parts it lies against, and groove those."""
    fit = habits.fit if joint.fit is None else joint.fit
    room = habits.relief if joint.room is None else joint.room
    if room >= joint.deep:
        raise KernelFault(f"{spell(room)} of room in a groove {spell(joint.deep)} deep holds no panel")
    frame = [body for kind in joint.into for body in bodies[kind]]
    made = []
    for panel in bodies[joint.of]:
        found = square_seams(panel, frame)
        if not found:
            continue
        low, high = grown(panel, found, cheeks(panel, joint.thick, joint.flush), joint.deep - room)
        number_thick = AXIS_NUMBER[panel.thick]
        for seam in found:
            more = {**across(panel, fit), seam.side: room, **_run_out(seam, room)}
            values: dict[str, Value] = {"wide": float(high[number_thick] - low[number_thick]), "deep": joint.deep}
            groove(seam, taker(seam, low, high, more), seam.gap + joint.deep, "groove", values)
            made.append(_made(seam, joint, number, room))
        give_edge(panel, found, low, high, "panel edge")
    return made


def _made(seam: Seam, joint: GroovedPanel, number: int, room: float) -> JointMade:
    way, travel = seam.direction, joint.deep - room
    if joint.slides_in_from is not None:
        way = -seam.of.outward(joint.slides_in_from)
        travel = seam.of.blank.size(SIDE_AXIS[joint.slides_in_from])
    names = (seam.of.name, seam.into.name)
    return JointMade("grooved panel", number, *names, seam.where, round_point(way), travel, glued=False)


def _run_out(seam: Seam, room: float) -> dict[Side, float]:
    """How far a groove goes past the panel at both ends: the room there, or on through an end that is tenoned."""
    through = seam.into.blank.size(seam.into.runs) + CLEAR
    return {side: through if _tenoned(seam, side) else room for side in sides_of(seam.along)}


def _tenoned(seam: Seam, side: Side) -> bool:
    """Whether the frame part runs along the seam and has a tenon at the end that lies to that side."""
    outward = seam.of.outward(side)
    return any(
        float(seam.into.outward(end) @ outward) > 0.99
        for feature in seam.into.features
        if feature.kind == "tenon"
        for callout in feature.callouts
        for end in seam.into.ends
        if callout.values["end"] == end
    )
