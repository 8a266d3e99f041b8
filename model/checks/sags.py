"""A loaded part must not sag more than one sees and doors can stand."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.piece import Piece
from model.supports import sags
from plans.problems import Problem

LIMIT = 144.0  # span by sag, Architectural Woodwork Standards 2009, 4.4.14.10: shelves


def check(piece: Piece) -> list[Problem]:
    """Parts that sag more than a 144th of their span under a stated load; loads that are not stated are not judged."""
    found = []
    for bent in sags(piece, LIMIT):
        if bent.sag <= bent.allowed:
            continue
        number = piece.design.spec.loads.index(bent.load)
        found.append(
            finding(
                "sags",
                "warning",
                f"{bent.part.name} sags under its load: a rule-of-thumb estimate, and a load that stays doubles it",
                piece.design.place("loads", number),
                "make it thicker, of stiffer wood, or put a support in the middle of the span",
                (bent.part.name,),
                f"{said(piece, bent.sag)} over a span of {said(piece, bent.span)}",
                f"at most {said(piece, bent.allowed)}, a {LIMIT:.0f}th of the span",
            )
        )
    return once_a_kind(piece, found)
