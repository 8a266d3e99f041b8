"""The other sizes a design names, each built, so that a table can say how large they come out."""

from __future__ import annotations

from dataclasses import dataclass

from model.build import build
from model.piece import Piece
from plans.design import Design
from plans.problems import Problem, has_errors
from plans.resolve import resolve
from plans.sizes import BASE, Choice, size_names


@dataclass(frozen=True)
class SizeMade:
    """One size: how it was read, and what comes of it. Width, depth and height over all in mm."""

    design: Design
    overall: tuple[float, float, float]
    kinds: tuple[str, ...]  # of every part

    @property
    def parts(self) -> int:
        """How many parts there are."""
        return len(self.kinds)

    def count(self, kind: str) -> int:
        """How many parts of a kind."""
        return self.kinds.count(kind)

    @property
    def name(self) -> str:
        """Its name in the file; nothing for the design as it stands."""
        return self.design.choice.title


def sizes(piece: Piece) -> tuple[tuple[SizeMade, ...], tuple[Problem, ...]]:
    """The design as it stands, every size it names, and the piece itself; what stops one of them is a warning.

    Nothing where the design names no sizes.
    """
    design = piece.design
    choices = [Choice(name) for name in size_names(design.written)]
    if not choices:
        return (), ()
    made: list[SizeMade] = []
    told: list[Problem] = []
    for choice in dict.fromkeys((BASE, *choices, design.choice)):
        if choice == design.choice:
            made.append(_made(piece))
            continue
        read, problems = resolve(design.written, design.system, choice)
        built = None
        if read is not None and not has_errors(problems):
            built, problems = build(read, store=piece.store)
        if built is None:
            told += [_warned(choice, problem) for problem in problems if problem.severity == "error"]
        else:
            made.append(_made(built))
    return tuple(made), tuple(told)


def _made(piece: Piece) -> SizeMade:
    width, depth, height = (float(mm) for mm in piece.size)
    return SizeMade(piece.design, (width, depth, height), tuple(part.kind for part in piece.parts.values()))


def _warned(choice: Choice, problem: Problem) -> Problem:
    message = f"the size {choice.title or 'as drawn'} cannot be made, and is left out of the table: {problem.message}"
    return Problem("size-fails", "warning", message, problem.place, problem.hint, problem.parts)
