"""Glue fills a hair, not a gap: a joint has to fit."""

from __future__ import annotations

from model.checks.finding import at_most, finding, once_a_kind, said
from model.holding import FITTED
from model.piece import Piece
from plans.problems import Problem

MOST = 0.25  # mm at each cheek (common practice: a tenon goes in by hand, with some 0.1 mm)


def check(piece: Piece) -> list[Problem]:
    """Joints with more room at their cheeks than glue bridges."""
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, FITTED) or entry.fit is None or entry.fit <= MOST:
            continue
        found.append(
            finding(
                "loose-joint",
                "warning",
                f"the {joint.kind} of {joint.a} and {joint.b} is loose",
                piece.design.joint_place(joint.number, "fit"),
                "give less room, or say no `fit` to take what is usual",
                (joint.a, joint.b),
                f"{said(piece, entry.fit)} at each cheek",
                f"at most {at_most(piece, MOST)}",
            )
        )
    return once_a_kind(piece, found)
