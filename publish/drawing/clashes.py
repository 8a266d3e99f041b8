"""What overlaps on a sheet, found pair by pair."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Literal, NamedTuple

from publish.drawing.box import segment_meets_box, segments_cross
from publish.drawing.placement import ROW_APART, SAME_PLACE, Placement
from publish.drawing.wishes import DimensionWish

ClashKind = Literal["text on text", "text on line", "leader on leader", "line on line"]


class Clash(NamedTuple):
    """One overlap between two placements."""

    kind: ClashKind
    first: Placement
    second: Placement


def clash_between(a: Placement, b: Placement, clearance: float) -> ClashKind | None:
    """The worst overlap of the two, None when they keep clear of each other."""
    if not a.reach.meets(b.reach):
        return None
    at, bt = a.text.grown(clearance), b.text.grown(clearance)
    if at.meets(bt):
        return "text on text"
    if any(segment_meets_box(s, at) for s in b.lines) or any(segment_meets_box(s, bt) for s in a.lines):
        return "text on line"
    if any(segments_cross(p, q) for p in a.leader for q in b.leader):
        return "leader on leader"
    if _on_one_line(a, b):
        return "line on line"
    return None


def _on_one_line(a: Placement, b: Placement) -> bool:
    """Two parallel dimension lines closer than a row, over the same stretch (ends that meet in a chain are well)."""
    p, q = a.dimension, b.dimension
    if p is None or q is None or _direction(a) != _direction(b):
        return False
    if _direction(a) == "h":
        return abs(p.y0 - q.y0) < ROW_APART and _share(p.x0, p.x1, q.x0, q.x1)
    return abs(p.x0 - q.x0) < ROW_APART and _share(p.y0, p.y1, q.y0, q.y1)


def _share(a0: float, a1: float, b0: float, b1: float) -> bool:
    return min(a1, b1) - max(a0, b0) > SAME_PLACE


def _direction(p: Placement) -> str:
    return p.wish.direction if isinstance(p.wish, DimensionWish) else ""


def clashes(placements: Sequence[Placement], clearance: float) -> list[Clash]:
    """Every overlap among `placements`, pair by pair."""
    found = []
    for a, b in combinations(placements, 2):
        kind = clash_between(a, b, clearance)
        if kind is not None:
            found.append(Clash(kind, a, b))
    return found
