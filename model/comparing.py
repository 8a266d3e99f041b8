"""The model beside the finished piece: every measured place with what is drawn there. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from model.measuring import Absent, measure
from model.piece import Piece
from plans.measured import Decision, DidDifferently, Measured
from plans.problems import Place, Problem

EXACT = 1e-6  # mm


@dataclass(frozen=True)
class Compared:
    """One measured place: what the piece has there and what the model has."""

    number: int  # of the entry, from 0
    entry: Measured
    place: Place
    drawn: float  # with the sign of `way`
    tolerance: float

    @property
    def way(self) -> int:
        """1, or -1 where the second of two places is drawn before the first: distances are measured without a sign."""
        return -1 if self.drawn < -EXACT else 1

    def off(self, drawn: float | None = None) -> float:
        """How much longer the piece is than what is drawn, or would be."""
        return self.entry.value - self.way * (self.drawn if drawn is None else drawn)

    @property
    def times(self) -> float:
        """The difference, counted in what the measuring may be out by."""
        return abs(self.off()) / self.tolerance

    @property
    def differs(self) -> bool:
        """Whether that is more than the measuring explains."""
        return abs(self.off()) > self.tolerance + EXACT

    @property
    def followed(self) -> bool:
        """Whether the design is to agree: unless it was decided otherwise."""
        return self.entry.decided in (None, "adopt")


def compared(piece: Piece) -> tuple[tuple[Compared, ...], tuple[Problem, ...]]:
    """Every measured place that the piece has, in the order of the file, and those that it has not."""
    found, missing = [], []
    for number, entry in enumerate(piece.design.spec.measured):
        place = piece.design.place("measured", number)
        drawn = measure(piece, entry)
        if isinstance(drawn, Absent):
            said = f"measured {number + 1}: {drawn.message}"
            missing.append(Problem("measured-not-found", "error", said, place, drawn.hint, entry.kinds[:1]))
        else:
            found.append(Compared(number, entry, place, drawn, entry.tolerance(piece.design.spec.units)))
    return tuple(found), tuple(missing)


def done_differently(piece: Piece, decided: Decision | None) -> tuple[tuple[DidDifferently, Place], ...]:
    """What was done otherwise than designed, in words, of which that was decided."""
    every = enumerate(piece.design.spec.did_differently)
    return tuple(
        (done, piece.design.place("did differently", number)) for number, done in every if done.decided == decided
    )
