"""Stages that are one piece of work at the bench: a frame is closed round its panel in one go, not rail by rail.

Bounds: as many joints as are closed while glue stays open, and as many kinds of part as one picture shows.
"""

from __future__ import annotations

from dataclasses import replace

from model.piece import Piece
from model.stages import Stage

CLOSED_AT_ONCE = 8  # glued joints: about one a minute, and glue stays open for some ten (common practice)
KINDS_AT_ONCE = (
    5  # new kinds of part in one step (Heiser et al. 2004 ask for one diagram a major step; the number is ours)
)


def gathered(piece: Piece, stages: tuple[Stage, ...]) -> tuple[Stage, ...]:
    """The stages, those taken together that go on where another ends and fit in one go with it."""
    kept: list[Stage] = []
    for stage in stages:
        before = next((one for one in kept if _goes_on(one, stage)), None)
        together = None if before is None else _together(piece, before, stage)
        if before is not None and together is not None:
            kept.remove(before)
        kept.append(together or stage)
    return tuple(kept)


def _goes_on(one: Stage, then: Stage) -> bool:
    """Whether the second stage adds to what the first one, and each of its copies, made."""
    return [set(single.parts) for single in one.every] == [set(single.base) for single in then.every]


def _together(piece: Piece, one: Stage, then: Stage) -> Stage | None:
    """Both stages as one; none where that is too much for one go, or the first has to be done with before."""
    whole = _joined(one, then)
    alone = len(one.base) == 1 and all(len(move.parts) == 1 for move in whole.moves)
    here = set(whole.parts)
    kinds = {piece.parts[name].kind for name in here}
    glued = sum(joint.glued and {joint.a, joint.b} <= here for joint in piece.joints)
    first = set(one.parts)
    done = any({f.through, f.into} <= first and not f.last for f in piece.fixings)
    done = done or any(set(made.parts) == first for made in piece.assemblies)
    split = {own.adding for own in piece.design.spec.steps if own.split}
    done = done or any(piece.parts[name].kind in split for move in then.moves for name in move.parts)
    fits = alone and len(kinds) <= KINDS_AT_ONCE and glued <= CLOSED_AT_ONCE
    return whole if fits and not done else None


def _joined(one: Stage, then: Stage) -> Stage:
    after = 1 + max((move.turn for move in one.moves), default=0)
    moves = (*one.moves, *(replace(move, turn=move.turn + after) for move in then.moves))
    copies = tuple(_joined(a, b) for a, b in zip(one.copies, then.copies, strict=True))
    return Stage(one.base, moves, copies)
