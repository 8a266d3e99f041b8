"""Clamps pull square to the faces they stand on: a leaning part wants an angled block under the clamp."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding
from model.faces import outer_faces
from model.grain import grain
from model.piece import JointMade, Piece
from plans.joints import Bridle, Dowel, Housing, LooseTenon, MortiseAndTenon
from plans.problems import Problem

PULLED = MortiseAndTenon | Bridle | LooseTenon | Dowel | Housing
SQUARE = 2.0  # degrees a clamp's own pad takes up
SLIPS = 20.0  # degrees past which a block slides off as well (common practice)


def check(piece: Piece) -> list[Problem]:
    """One note: which joints are pulled together over an angled caul, and its angle."""
    angles: dict[int, tuple[JointMade, float]] = {}
    for joint in piece.joints:
        if isinstance(piece.design.spec.joints[joint.number], PULLED) and joint.glued:
            angle = _angle(piece, joint)
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


def _angle(piece: Piece, joint: JointMade) -> float:
    """Between the pull of a clamp along the joint and the outer face it would stand on (degrees)."""
    a, b, pull = piece.parts[joint.a], piece.parts[joint.b], np.array(joint.direction)
    if joint.kind == "bridle":  # slides in from the end; what is pulled tight is the shoulders, along the tongue
        pull = grain(a) * np.sign(float(grain(a) @ (np.array(joint.point) - a.mesh.box.mean(axis=0))))
    usable = [face.normal for face in outer_faces(b) if abs(float(face.normal @ grain(b))) < 0.7]
    best = max((float(normal @ pull) for normal in usable), default=0.0)
    return float(np.degrees(np.arccos(min(1.0, max(-1.0, best)))))
