"""Parts that go in by two moves: up and over, then down."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Told so that the maker keeps the room free that the second move needs."""
    if piece.clashes:
        return []
    kinds: dict[str, list[str]] = {}
    for stage in piece.stages:
        for single in stage.every:
            for move in single.moves:
                if len(move.path) > 1:
                    kinds.setdefault(piece.parts[move.parts[0]].kind, []).extend(move.parts)
    return [
        finding(
            "two-ways-in",
            "note",
            f"{kind} goes in by two moves: along, then home",
            piece.design.place("parts", kind),
            "keep the way free until it is in; put it in before what would stand in its way",
            names,
            "two moves",
            "one straight move, where that can be had",
        )
        for kind, names in kinds.items()
    ]
