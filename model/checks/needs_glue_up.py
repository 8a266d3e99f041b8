"""A part wider than boards are sold has to be glued up."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.piece import Piece
from plans.library import board_sizes
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Parts wider than one finds; a note where boards as wide are to be had with luck."""
    found = []
    for kind, spec in piece.design.parts.items():
        sizes = board_sizes(spec.stock)
        width = max(part.width[1] - part.width[0] for part in piece.parts.values() if part.kind == kind)
        if width <= sizes.usual_width:
            continue
        hard = width > sizes.widest
        found.append(
            finding(
                "needs-glue-up",
                "note",
                f"{kind} is wider than boards {'come' if hard else 'usually come'}: it has to be glued up"
                + ("" if hard else ", or a wide board found"),
                piece.design.place("parts", kind, "width"),
                "plan for two or more boards with their edges glued, the grain all one way",
                [name for name, part in piece.parts.items() if part.kind == kind],
                f"{said(piece, width)} wide",
                f"boards are {said(piece, sizes.usual_width)} as a rule, {said(piece, sizes.widest)} at most",
            )
        )
    return found
