"""What a check meets and cannot judge, it says."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from model.supports import spans
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Loads on parts whose supports are not known."""
    found = []
    for number, load in enumerate(piece.design.spec.loads):
        parts = [part for part in piece.parts.values() if part.kind == load.part]
        if all(spans(piece, part) for part in parts):
            continue
        found.append(
            finding(
                "not-judged",
                "note",
                f"the sag of {load.part} is not judged: it has no two supports that a joint or a fixing shows",
                piece.design.place("loads", number),
                "say the joints or fixings that hold it up, or work it out for yourself",
                [part.name for part in parts],
            )
        )
    return found
