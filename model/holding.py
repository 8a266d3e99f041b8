"""What the kinds of joint have in common when it is judged how they hold: their room, their depth, their glue."""

from __future__ import annotations

from model.joints.joining import HABITS, Habits
from model.piece import Part, Piece
from plans.joints import (
    Biscuit,
    BoxJoint,
    BreadboardEnd,
    Bridle,
    CrossHalving,
    Dovetail,
    Dowel,
    Housing,
    Joint,
    LooseTenon,
    MortiseAndTenon,
    SlidingDovetail,
    TongueAndGroove,
)

NOISE = 0.05  # mm

# joints whose cheeks are glued, or slide on each other, with a `fit` that may be too large
CHEEKED = MortiseAndTenon | Bridle | Housing | TongueAndGroove | LooseTenon | BreadboardEnd | SlidingDovetail
FITTED = CHEEKED | BoxJoint | Dovetail | CrossHalving
# joints that keep their parts together by their shape, so that the glue has less to do
INTERLOCKED = Dovetail | SlidingDovetail | BoxJoint
# joints with wood of their own from part to part: dowels, loose tenons, biscuits
BRIDGED = Dowel | LooseTenon | Biscuit


def habits(piece: Piece) -> Habits:
    """What is taken in this piece where a joint does not say."""
    return HABITS[piece.design.spec.units]


def meant(a: Part, b: Part, size: float) -> bool:
    """Whether a small distance between two parts is the gap that the design states for one of them (mm)."""
    return any(abs(size - gap) < NOISE for part in (a, b) for gap in part.spec.gap.values())


def moves(part: Part) -> bool:
    """Whether a part is solid wood, which swells and shrinks, has short grain and end grain."""
    return bool(part.spec.wood)


def depth_into(entry: Dowel | LooseTenon) -> tuple[float, float]:
    """How far dowels and loose tenons go into the `of` and the `into` part (mm)."""
    into = entry.long / 2 if entry.deep is None else entry.deep
    return entry.long - into, into


def relief(entry: Joint, usual: Habits) -> float | None:
    """Room left at the bottom of what is cut (mm); None for joints whose parts are meant to meet there."""
    if isinstance(entry, MortiseAndTenon) and entry.through:
        return None
    if isinstance(entry, MortiseAndTenon | LooseTenon | Dowel | BreadboardEnd | TongueAndGroove):
        return usual.relief if entry.relief is None else entry.relief
    return None
