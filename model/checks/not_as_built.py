"""The design against the finished piece, where the maker measured it."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.comparing import Compared, compared
from model.piece import Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Measured places that differ: a warning where the design was to follow, a note where nothing was decided."""
    return [_problem(piece, one) for one in compared(piece)[0] if one.differs and one.followed]


def _problem(piece: Piece, one: Compared) -> Problem:
    adopted = one.entry.decided == "adopt"
    message = "the design was to follow the piece here" if adopted else "the piece was measured otherwise"
    cure = "ask `plansheaf reconcile` which number to change"
    return finding(
        "not-as-built",
        "warning" if adopted else "note",
        f"measured {one.number + 1}: {message}",
        one.place,
        cure if adopted else f"{cure}, or say `decided: note` or `decided: slip`",
        (),
        said(piece, one.way * one.drawn),
        f"{said(piece, one.entry.value)}, give or take {said(piece, one.tolerance)}",
    )
