"""A tenon that is as long as its mortise is deep stands on the bottom, and its shoulders do not close."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.holding import habits, relief
from model.piece import Piece
from plans.problems import Problem

LEAST = 0.5  # mm for glue at the bottom (common practice: 1/32 to 1/16 in)


def check(piece: Piece) -> list[Problem]:
    """Mortises, dowel holes and grooves for tongues without room at the bottom."""
    found = []
    usual = habits(piece)
    for joint in piece.joints:
        room = relief(piece.design.spec.joints[joint.number], usual)
        if room is None or room >= LEAST:
            continue
        found.append(
            finding(
                "tenon-bottoms",
                "warning",
                f"the {joint.kind} of {joint.a} stands on the bottom of its hole in {joint.b}",
                piece.design.joint_place(joint.number, "relief"),
                "give it some `relief`, or say none to take what is usual",
                (joint.a, joint.b),
                f"{said(piece, room)} at the bottom",
                f"at least {at_least(piece, LEAST)}",
            )
        )
    return once_a_kind(piece, found)
