"""The fit check: one file a check, one code a check."""

from collections.abc import Callable

from model.checks import fixings_clear, glue_faces, openings, same_place, sound_solids
from model.piece import Piece
from plans.problems import Problem

CHECKS: dict[str, Callable[[Piece], list[Problem]]] = {
    "unsound-solid": sound_solids.check,
    "same-place": same_place.check,
    "fixing-in-the-way": fixings_clear.check,
    "glue-faces-apart": glue_faces.check,
    "blocked-opening": openings.check,
}


def check_fit(piece: Piece) -> tuple[Problem, ...]:
    """Every finding of every check, the checks in the order of the table."""
    return tuple(problem for check in CHECKS.values() for problem in check(piece))
