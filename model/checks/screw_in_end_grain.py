"""A screw along the grain holds badly."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind
from model.grain import grain
from model.holding import moves
from model.piece import Piece
from model.screws import driven
from plans.problems import Problem

ALONG = 0.7  # cosine: more than 45 degrees along the grain


def check(piece: Piece) -> list[Problem]:
    """Screws driven into end grain."""
    found = []
    for screw in driven(piece):
        into = piece.parts[screw.fixing.into]
        if not moves(into) or abs(float(screw.direction @ grain(into))) < ALONG:
            continue
        found.append(
            finding(
                "screw-in-end-grain",
                "warning",
                f"the screw through {screw.fixing.through} goes into the end grain of {into.name}",
                piece.design.fixing_place(screw.fixing.number),
                "use a joint there, or screw into a side; end grain holds about 6 tenths of that, and not surely",
                (screw.fixing.through, into.name),
                "a screw along the grain",
                "a screw across the grain",
            )
        )
    return once_a_kind(piece, found)
