"""A screw must end inside the lower part."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.piece import Piece
from model.screws import driven, room
from plans.problems import Problem

LEAST = 2.0  # mm of wood over the point (common practice: 1/8 in at the drill)


def check(piece: Piece) -> list[Problem]:
    """Screws whose point comes through the far side, or all but does."""
    found = []
    for screw in driven(piece):
        left = room(piece, screw) - screw.bite
        if left >= LEAST:
            continue
        out = left < 0
        into = screw.fixing.into
        found.append(
            finding(
                "screw-comes-out",
                "error" if out else "warning",
                f"the screw through {screw.fixing.through} {'comes out of' if out else 'all but comes out of'} {into}",
                piece.design.fixing_place(screw.fixing.number, "long"),
                "use a shorter screw, or sink the head less",
                (screw.fixing.through, into),
                f"{said(piece, screw.bite)} of screw in {said(piece, screw.bite + left)} of wood",
                f"at least {at_least(piece, LEAST)} of wood over the point",
            )
        )
    return once_a_kind(piece, found)
