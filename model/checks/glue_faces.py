"""Every glued joint needs faces that touch."""

from __future__ import annotations

from model.glue import glue_area
from model.piece import Piece
from plans.joints import Scribe
from plans.problems import Problem

LEAST = 25.0  # mm2 of touching faces: less than a fingernail of glue holds nothing (common practice)


def check(piece: Piece) -> list[Problem]:
    """Glued joints whose faces do not touch."""
    found = []
    for joint in piece.joints:
        # a scribed end follows the other part whatever its shape: it touches all over, though on no flat face
        if not joint.glued or isinstance(piece.design.spec.joints[joint.number], Scribe):
            continue
        area = glue_area(piece.parts[joint.a], piece.parts[joint.b])
        if area >= LEAST:
            continue
        found.append(
            Problem(
                "glue-faces-apart",
                "error",
                f"the {joint.kind} of {joint.a} and {joint.b} has no faces that touch",
                piece.design.joint_place(joint.number),
                "bring the two together, or make the joint fit closer",
                (joint.a, joint.b),
                f"{area:.0f} mm2 touching",
                f"at least {LEAST:.0f} mm2",
            )
        )
    return found
