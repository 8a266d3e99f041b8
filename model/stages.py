"""What an assembly is made of: stages, the moves in them, and the paths of the moves."""

from __future__ import annotations

from dataclasses import dataclass

from model.piece import Point


@dataclass(frozen=True)
class Leg:
    """One straight stretch of a path, outwards: a direction and how far (inf: clear away)."""

    direction: Point
    distance: float


@dataclass(frozen=True)
class Move:
    """Parts that go in together; `path` is how they come out, so they go in along it backwards.

    Moves of one `turn` go in beside each other; those of a later one when they are in.
    """

    parts: tuple[str, ...]
    path: tuple[Leg, ...]
    turn: int = 0


@dataclass(frozen=True)
class Stage:
    """One step of assembly: `moves` are added to `base`. A stage without moves puts loose parts together at once."""

    base: tuple[str, ...]
    moves: tuple[Move, ...]
    copies: tuple[Stage, ...] = ()  # the same stage for the other groups that are made alike

    @property
    def times(self) -> int:
        """How many alike are made."""
        return 1 + len(self.copies)

    @property
    def every(self) -> tuple[Stage, ...]:
        """The stage and its copies."""
        return (self, *self.copies)

    @property
    def parts(self) -> tuple[str, ...]:
        """Every part that is there when the stage is done."""
        return (*self.base, *(name for move in self.moves for name in move.parts))

    @property
    def turns(self) -> tuple[tuple[Move, ...], ...]:
        """The moves of each turn, first to last."""
        every = dict.fromkeys(move.turn for move in self.moves)
        return tuple(tuple(move for move in self.moves if move.turn == turn) for turn in every)

    def there(self, move: Move) -> tuple[str, ...]:
        """What is in its place when a move is done, but for what moves."""
        beside = (name for other in self.moves if other.turn <= move.turn and other != move for name in other.parts)
        return (*self.base, *beside)
