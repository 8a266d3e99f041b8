"""Two screws may not meet inside the wood."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, said
from model.frames import Vector
from model.piece import Piece
from model.screws import Driven, driven
from plans.problems import Problem

ROOM = 1.0  # mm of wood between two screws at least: nobody bores truer (common practice)


def check(piece: Piece) -> list[Problem]:
    """Pairs of screws that pass each other closer than their own thickness and a little."""
    screws = driven(piece)
    found = []
    if len(screws) < 2:
        return []
    ends = np.array([[s.seat, s.tip] for s in screws])
    low, high = ends.min(axis=1), ends.max(axis=1)
    gaps = np.maximum(low[:, None] - high[None], low[None] - high[:, None]).max(axis=2)
    for i, j in zip(*np.nonzero(np.triu(gaps < 12.0, k=1)), strict=True):
        a, b = screws[i], screws[j]
        gap = between(a.seat, a.tip, b.seat, b.tip) - (a.diameter + b.diameter) / 2
        if gap < ROOM:
            found.append(_problem(piece, a, b, gap))
    return found


def _problem(piece: Piece, a: Driven, b: Driven, gap: float) -> Problem:
    names = (a.fixing.through, a.fixing.into, b.fixing.through, b.fixing.into)
    return finding(
        "screws-cross",
        "error",
        f"screws into {a.fixing.into} and into {b.fixing.into} meet inside the wood",
        piece.design.fixing_place(b.fixing.number),
        "use shorter screws, or fewer in one of the places, so that they pass each other",
        names,
        f"{said(piece, max(0.0, gap))} between them",
        f"at least {at_least(piece, ROOM)}",
    )


def between(a: Vector, b: Vector, c: Vector, d: Vector) -> float:
    """Smallest distance between the stretches a-b and c-d."""
    u, v, w = b - a, d - c, a - c
    uu, uv, vv, uw, vw = (float(x @ y) for x, y in ((u, u), (u, v), (v, v), (u, w), (v, w)))
    det = uu * vv - uv * uv
    s = 0.0 if det < 1e-9 else min(1.0, max(0.0, (uv * vw - vv * uw) / det))
    t = min(1.0, max(0.0, (uv * s + vw) / vv)) if vv > 0 else 0.0
    s = min(1.0, max(0.0, (uv * t - uw) / uu)) if uu > 0 else 0.0
    return float(np.linalg.norm(w + u * s - v * t))
