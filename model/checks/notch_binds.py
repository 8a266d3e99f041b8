"""A notch must let the part that lies in it swell."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.holding import habits
from model.movement import change, moisture_range
from model.piece import Piece
from plans.joints import NotchOver
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Notches with less room than the part in them grows across its thickness."""
    low, high = moisture_range(piece)
    habit = habits(piece).notch_fit
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, NotchOver):
            continue
        over = piece.parts[joint.b]
        room = 2 * (habit if entry.fit is None else entry.fit)
        growth = change(over, over.spec.thick, over.over_all[2], low, high) or 0.0
        if growth <= room:
            continue
        found.append(
            finding(
                "notch-binds",
                "warning",
                f"the notch in {joint.a} binds on {joint.b} in the damp season",
                piece.design.joint_place(joint.number, "fit"),
                "give the notch more room",
                (joint.a, joint.b),
                f"{said(piece, room)} of room",
                f"at least {said(piece, growth)}, which is what {over.kind} swells",
            )
        )
    return once_a_kind(piece, found)
