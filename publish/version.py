"""A piece as it is published: one for both unit systems, or one for each where the design is re-made in the other."""

from __future__ import annotations

from dataclasses import dataclass

from model.piece import Piece
from model.sizes import SizeMade
from plans.problems import Problem
from plans.units import System


@dataclass(frozen=True)
class Version:
    """The piece, the unit systems its editions are in, all that was found of it, and the sizes it is offered in.

    `remade_in`: the units it is re-made in, where it is not the design as written.
    """

    piece: Piece
    systems: tuple[System, ...]
    problems: tuple[Problem, ...] = ()
    offered: tuple[SizeMade, ...] = ()
    remade_in: System | None = None
