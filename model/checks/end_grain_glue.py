"""Glue on end grain does not hold."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind
from model.glue import glue_area, long_grain_area
from model.piece import Piece
from plans.problems import Problem

SHARE = 0.05  # of the glued area: less is a rim, not a joint


def check(piece: Piece) -> list[Problem]:
    """Glued joints without long grain on long grain, and no screw that holds instead."""
    screwed = {frozenset((fixing.through, fixing.into)) for fixing in piece.fixings}
    found = []
    for joint in piece.joints:
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        if not joint.glued or frozenset((a.name, b.name)) in screwed:
            continue
        whole, long_grain = glue_area(a, b), long_grain_area(a, b)
        if whole <= 0 or long_grain >= SHARE * whole:
            continue
        found.append(
            finding(
                "end-grain-glue",
                "warning",
                f"the {joint.kind} of {a.name} and {b.name} is glued on end grain only",
                piece.design.joint_place(joint.number),
                "use a joint that brings long grain together, such as a mortise and tenon, or add screws",
                (a.name, b.name),
                f"{long_grain:.0f} mm2 of long grain in {whole:.0f} mm2 of glue",
                "long grain on long grain",
            )
        )
    return once_a_kind(piece, found)
