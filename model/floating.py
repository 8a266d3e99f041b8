"""Parts that float: how much room they have across their grain, how far they are held, how much they move."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model.frames import apply, inverse, matrix_of
from model.holding import habits, moves
from model.movement import moisture_range, width_change
from model.once import once
from model.piece import JointMade, Part, Piece
from plans.joints import GroovedPanel, Housing, Joint, Rabbet, TongueAndGroove
from plans.sides import AXES, AXIS_NUMBER, Axis, third_axis


@dataclass(frozen=True)
class Floating:
    """A part held at its edges across its grain and not glued there (mm).

    room: how much it can grow before it stands on what holds it; held: how far it is in its grooves at least, when it
    has gone over to the other side as far as it can; moves: its change of width between the driest and the dampest;
    leaves: how much of that it can draw back from one groove.
    """

    part: Part
    joints: tuple[JointMade, ...]
    room: float
    held: float
    moves: float
    leaves: float


@once
def floating(piece: Piece) -> tuple[Floating, ...]:
    """Every floating panel, back and tongued board of the piece."""
    groups: dict[tuple[str, int], list[JointMade]] = {}
    for joint in piece.joints:
        if _room(piece, piece.design.spec.joints[joint.number]) is not None and _across(piece.parts[joint.a], joint):
            groups.setdefault((joint.a, joint.number), []).append(joint)
    return tuple(_panel(piece, tuple(joints)) for joints in groups.values()) + tuple(_boards(piece))


def _room(piece: Piece, entry: Joint) -> tuple[float, float] | None:
    """Room at the edge, and depth of the groove, of a joint that lets a part float; None for any other."""
    if isinstance(entry, GroovedPanel):
        return habits(piece).relief if entry.room is None else entry.room, entry.deep
    if isinstance(entry, Rabbet) and not entry.glue:
        return entry.room, entry.deep + entry.room
    if isinstance(entry, Housing) and not entry.glue:
        return entry.relief, entry.deep + entry.relief
    return None


def _across(part: Part, joint: JointMade) -> bool:
    """Whether a joint lies at an edge of a part, not at one of its ends; only solid wood moves there."""
    if not moves(part):
        return False
    reach = {part.spec.runs: part.length, part.spec.thick: part.thickness, _wide(part): part.width}
    spans = np.array([reach[axis] for axis in AXES])
    point = apply(inverse(matrix_of(part.at)), np.array(joint.point))
    off = np.abs(point - spans.mean(axis=1)) / np.maximum(np.ptp(spans, axis=1), 1.0)
    return bool(off[AXIS_NUMBER[_wide(part)]] > off[AXIS_NUMBER[part.spec.runs]])


def _wide(part: Part) -> Axis:
    return third_axis(part.spec.runs, part.spec.thick)


def _panel(piece: Piece, joints: tuple[JointMade, ...]) -> Floating:
    part = piece.parts[joints[0].a]
    found = _room(piece, piece.design.spec.joints[joints[0].number])
    assert found is not None
    each, deep = found
    sides = min(2, len(joints))
    room, change = each * sides, _change(piece, part, part.over_all[1])
    entry = piece.design.spec.joints[joints[0].number]
    if isinstance(entry, GroovedPanel) and entry.pinned:  # it keeps its middle: what moves at either edge is half
        return Floating(part, joints, room, deep - each, change, change / sides)
    return Floating(part, joints, room, deep - room, change, change)


def _boards(piece: Piece) -> list[Floating]:
    """Boards with a tongue that is not glued: half of each board moves at every tongue."""
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        if not isinstance(entry, TongueAndGroove) or entry.glue or not _across(a, joint):
            continue
        gap = entry.long - joint.travel
        change = sum(_change(piece, part, part.over_all[1]) / 2 for part in (a, b) if moves(part))
        found.append(Floating(a, (joint,), gap, joint.travel, change, change))
    return found


def _change(piece: Piece, part: Part, size: float) -> float:
    low, high = moisture_range(piece)
    return width_change(part, size, low, high)
