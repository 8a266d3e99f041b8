"""A part longer than boards are sold cannot be cut from one."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.piece import Piece
from plans.library import board_sizes, sheet
from plans.problems import Problem
from plans.spec import PartSpec


def check(piece: Piece) -> list[Problem]:
    """Parts longer than the longest boards."""
    found = []
    for kind, spec in piece.design.parts.items():
        longest = _longest(piece, spec)
        length = max(part.length[1] - part.length[0] for part in piece.parts.values() if part.kind == kind)
        if longest is None or length <= longest:
            continue
        found.append(
            finding(
                "board-too-long",
                "warning",
                f"{kind} is longer than {'sheets' if spec.sheet else 'boards'} are sold",
                piece.design.place("parts", kind, "length"),
                "make it shorter, or join it from two lengths",
                [name for name, part in piece.parts.items() if part.kind == kind],
                f"{said(piece, length)} long",
                f"at most {said(piece, longest)}",
            )
        )
    return found


def _longest(piece: Piece, spec: PartSpec) -> float | None:
    """Of what a part is cut from (mm); None for what is not cut, or not in the tables."""
    if spec.supplied or spec.material is not None:
        return None
    if spec.sheet is None:
        return board_sizes(spec.stock).longest
    sold = sheet(spec.sheet, spec.stock)
    return None if sold is None else max(sold.size(piece.design.spec.units))
