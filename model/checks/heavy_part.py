"""What one person should not lift alone."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from model.takeoff import mass
from plans.problems import Problem

ALONE = 25.0  # kg, held close and at waist height (guideline figure of several safety authorities, from memory)


def check(piece: Piece) -> list[Problem]:
    """Parts heavier than that."""
    found = []
    for kind in piece.design.parts:
        parts = [part for part in piece.parts.values() if part.kind == kind]
        heaviest = max((mass(part) or 0.0) for part in parts)
        if heaviest <= ALONE:
            continue
        found.append(
            finding(
                "heavy-part",
                "note",
                f"{kind} is too heavy for one: two people lift it, or a hoist",
                piece.design.place("parts", kind),
                "plan the lift before the glue is spread",
                [part.name for part in parts],
                f"{heaviest:.0f} kg",
                f"at most {ALONE:.0f} kg alone",
            )
        )
    return found
