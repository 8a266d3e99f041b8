"""What the maker says of a step has to find it: a work that some part needs, on the parts named."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from model.steps import plan_of
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Entries of `steps` that no step of the build answers to any longer."""
    return [_problem(piece, number) for number in plan_of(piece).not_found]


def _problem(piece: Piece, number: int) -> Problem:
    own = piece.design.spec.steps[number]
    on = f" on the parts {', '.join(own.apart)}" if own.apart else ""
    return finding(
        "step-not-found",
        "error",
        f"steps.{number + 1}: there is no step '{own.called}'{on} any longer: no part needs it",
        piece.design.place("steps", number),
        "take these words out, or say them of another step",
        (),
        "no such step",
        "a step of the build",
    )
