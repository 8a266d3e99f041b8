"""Clamps pull square to the faces they stand on: a leaning part wants an angled block under the clamp."""

from __future__ import annotations

from model.checks.finding import finding
from model.clamping import SQUARE, caul_angle, is_pulled
from model.piece import JointMade, Piece
from plans.problems import Problem

SLIPS = 20.0  # degrees past which a block slides off as well (common practice)


def check(piece: Piece) -> list[Problem]:
    """One note: which joints are pulled together over an angled caul, and its angle."""
    angles: dict[int, tuple[JointMade, float]] = {}
    for joint in piece.joints:
        if is_pulled(piece, joint):
            angle = caul_angle(piece, joint)
            if angle > max(SQUARE, angles.get(joint.number, (joint, 0.0))[1]):
                angles[joint.number] = joint, angle
    if not angles:
        return []
    told = [f"{piece.parts[j.a].kind} into {piece.parts[j.b].kind} {angle:.0f}°" for j, angle in angles.values()]
    names = [name for joint, _ in angles.values() for name in (joint.a, joint.b)]
    worst = max(angle for _, angle in angles.values())
    hint = "cut the blocks from offcuts; see that the clamp pulls in line with the part"
    if worst > SLIPS:
        hint += "; the steepest slide: glue or screw the block on until the joint is closed"
    return [
        finding(
            "caul-needed",
            "note",
            f"clamps need angled blocks: {', '.join(told)}",
            piece.design.joint_place(next(iter(angles))),
            hint,
            names,
            f"faces out of square to the pull by up to {worst:.0f}°",
            "faces square to the pull, or blocks cut to the angle",
        )
    ]
