"""A floating panel must have room to swell in its grooves."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.floating import floating
from model.piece import Piece
from plans.joints import GroovedPanel, Rabbet
from plans.problems import Problem

HAIR = 0.05  # mm


def check(piece: Piece) -> list[Problem]:
    """Panels, loose backs and tongued boards that swell by more than their room, fitted at their driest."""
    found = []
    for panel in floating(piece):
        if panel.moves <= panel.room + HAIR:
            continue
        joint = panel.joints[0]
        entry = piece.design.spec.joints[joint.number]
        field = "room" if isinstance(entry, GroovedPanel | Rabbet) else None
        found.append(
            finding(
                "panel-binds",
                "warning",
                f"{panel.part.name} swells in the damp season by more than it has room for",
                piece.design.joint_place(joint.number, field),
                "leave more room, make the groove deeper for it, or use narrower or quarter-sawn boards",
                (panel.part.name, *(one.b for one in panel.joints)),
                f"{said(piece, panel.room)} of room across its grain",
                f"at least {said(piece, panel.moves)}, which is what it swells",
            )
        )
    return once_a_kind(piece, found)
