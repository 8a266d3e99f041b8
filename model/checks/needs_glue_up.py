"""A part wider than boards are sold has to be glued up."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.glued_up import part_boards
from model.piece import Part, Piece
from plans.library import board_sizes
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Parts, or the boards they are glued up from, wider than one finds; where one may with luck, it says so."""
    found = []
    for kind, spec in piece.design.parts.items():
        if not spec.wood or spec.supplied:
            continue
        sizes = board_sizes(spec.stock)
        width = max(_widest(part) for part in piece.parts.values() if part.kind == kind)
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


def _widest(part: Part) -> float:
    """Width of the widest board a part is cut from (mm)."""
    return max((board.width for board in part_boards(part)), default=part.width[1] - part.width[0])
