"""What was measured on the finished piece has to be there: a size that a part has, at a height where it is."""

from __future__ import annotations

from model.comparing import compared
from model.piece import Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Entries of `measured` that the piece has no place for."""
    return list(compared(piece)[1])
