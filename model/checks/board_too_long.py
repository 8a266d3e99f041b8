"""A part longer than boards are sold cannot be cut from one."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.piece import Piece
from plans.library import board_sizes
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Parts longer than the longest boards."""
    found = []
    for kind, spec in piece.design.parts.items():
        longest = board_sizes(spec.stock).longest
        length = max(part.length[1] - part.length[0] for part in piece.parts.values() if part.kind == kind)
        if length <= longest:
            continue
        found.append(
            finding(
                "board-too-long",
                "warning",
                f"{kind} is longer than boards are sold",
                piece.design.place("parts", kind, "length"),
                "make it shorter, or join it from two lengths",
                [name for name, part in piece.parts.items() if part.kind == kind],
                f"{said(piece, length)} long",
                f"at most {said(piece, longest)}",
            )
        )
    return found
