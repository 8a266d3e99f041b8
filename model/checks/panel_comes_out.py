"""A floating panel must still be in its grooves when it has shrunk."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.floating import floating
from model.piece import Piece
from plans.problems import Problem

LEAST = 0.5  # mm of panel left in its groove: less shows daylight at the first knock


def check(piece: Piece) -> list[Problem]:
    """Panels, loose backs and tongued boards that come out at one edge when they shrink and lie over to the other."""
    found = []
    for panel in floating(piece):
        if panel.held - panel.leaves >= LEAST:
            continue
        joint = panel.joints[0]
        found.append(
            finding(
                "panel-comes-out",
                "warning",
                f"{panel.part.name} shrinks out of its groove in the dry season",
                piece.design.joint_place(joint.number),
                "make groove and tongue deeper, use narrower or quarter-sawn boards, or say that it is `pinned`",
                (panel.part.name, *(one.b for one in panel.joints)),
                f"{said(piece, max(0.0, panel.held))} held, as far over to the other side as it can go",
                f"at least {said(piece, panel.leaves + LEAST)}: it shrinks by {said(piece, panel.leaves)} there",
            )
        )
    return once_a_kind(piece, found)
