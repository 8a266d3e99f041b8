"""The wood under the head of a screw is what it holds down with."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.piece import Piece
from model.screws import driven
from plans.problems import Problem

LEAST = 6.0  # mm, 1/4 in (common practice)


def check(piece: Piece) -> list[Problem]:
    """Screws whose head is let in so deep that little wood is left under it."""
    found = []
    for screw in driven(piece):
        if screw.clamped >= LEAST:
            continue
        found.append(
            finding(
                "little-under-head",
                "warning",
                f"little of {screw.fixing.through} is left under the head of its screw",
                piece.design.fixing_place(screw.fixing.number, "plugged"),
                "sink the head less deep, or make the part thicker",
                (screw.fixing.through, screw.fixing.into),
                said(piece, screw.clamped),
                f"at least {at_least(piece, LEAST)}",
            )
        )
    return once_a_kind(piece, found)
