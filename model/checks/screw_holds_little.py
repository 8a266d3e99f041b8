"""The thread of a screw needs length in the lower part."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.piece import Piece
from model.screws import driven
from plans.problems import Problem

DIAMETERS = 6.0  # least penetration of the main member for a full value, NDS 2018 section 12.1 (from memory)


def check(piece: Piece) -> list[Problem]:
    """Screws with less length in the lower part than is due."""
    found = []
    for screw in driven(piece):
        due = DIAMETERS * screw.diameter
        if screw.bite >= due - 0.05:
            continue
        found.append(
            finding(
                "screw-holds-little",
                "warning",
                f"the screw through {screw.fixing.through} holds little in {screw.fixing.into}",
                piece.design.fixing_place(screw.fixing.number, "long"),
                "use a longer screw, sink the head deeper, or use a thinner screw",
                (screw.fixing.through, screw.fixing.into),
                f"{said(piece, screw.bite)} of thread",
                f"at least {said(piece, due)} ({DIAMETERS:g} times its thickness)",
            )
        )
    return once_a_kind(piece, found)
