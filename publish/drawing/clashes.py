"""What is wrong between things on a sheet: overlaps, which may not be, and what is merely unsightly."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Literal, NamedTuple

from publish.drawing.box import Segment, segment_meets_box, segments_cross
from publish.drawing.placement import ROW_APART, Placement
from publish.drawing.wishes import DimensionWish

ClashKind = Literal["text on text", "text on line", "leader on leader", "line on line"]

_NESTING_COST = 300.0
_TOUCH = 0.3
_DIMENSION_CROSSED = 40.0
_EXTENSION_ON_DIMENSION = 8.0
_EXTENSIONS_CROSS = 1.0
_LEADER_ON_DIMENSION = 30.0
_LEADER_ON_EXTENSION = 10.0
_SPLIT_GROUP = 18.0
_BROKEN_CHAIN = 10.0


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
    return min(a1, b1) - max(a0, b0) > _TOUCH


def _direction(p: Placement) -> str:
    return p.wish.direction if isinstance(p.wish, DimensionWish) else ""


def unsightly(a: Placement, b: Placement) -> float:
    """What the pair costs short of an overlap: crossings, a long dimension inside a short one, a group torn apart."""
    cost = _order_cost(a, b)
    if not a.box.meets(b.box):
        return cost
    for one, other in ((a, b), (b, a)):
        if one.dimension is not None:
            cost += _EXTENSION_ON_DIMENSION * _count(other.extensions, (one.dimension,))
            cost += _LEADER_ON_DIMENSION * _count(other.leader, (one.dimension,))
        cost += _LEADER_ON_EXTENSION * _count(other.leader, one.extensions)
    if a.dimension is not None and b.dimension is not None and _direction(a) != _direction(b):
        cost += _DIMENSION_CROSSED * segments_cross(a.dimension, b.dimension)
        cost += _EXTENSIONS_CROSS * _count(a.extensions, b.extensions)
    return cost


def _count(first: Sequence[Segment], second: Sequence[Segment]) -> int:
    return sum(_truly_cross(p, q) for p in first for q in second)


def _truly_cross(p: Segment, q: Segment) -> bool:
    """Crossing in the open, not merely ending on each other as the lines of a chain do."""
    if not segments_cross(p, q):
        return False
    shorter = _shortened(p), _shortened(q)
    return segments_cross(*shorter)


def _shortened(s: Segment) -> Segment:
    long = s.length
    if long < 1.0:
        return s
    f = 0.25 / long
    dx, dy = (s.x1 - s.x0) * f, (s.y1 - s.y0) * f
    return Segment(s.x0 + dx, s.y0 + dy, s.x1 - dx, s.y1 - dy)


def _order_cost(a: Placement, b: Placement) -> float:
    """Nesting and grouping of two dimensions of one view and direction."""
    if a.side is None or b.side is None or a.wish.view != b.wish.view or _direction(a) != _direction(b):
        return 0.0
    assert isinstance(a.wish, DimensionWish) and isinstance(b.wish, DimensionWish)
    together = bool(a.wish.group) and a.wish.group == b.wish.group
    if a.side != b.side:
        return _SPLIT_GROUP if together else 0.0
    (a0, a1), (b0, b1) = a.span, b.span
    if a0 <= b0 + _TOUCH and a1 >= b1 - _TOUCH and a1 - a0 > b1 - b0 + _TOUCH:
        return _NESTING_COST if a.row <= b.row else 0.0
    if b0 <= a0 + _TOUCH and b1 >= a1 - _TOUCH and b1 - b0 > a1 - a0 + _TOUCH:
        return _NESTING_COST if b.row <= a.row else 0.0
    chained = together and (abs(a1 - b0) < _TOUCH or abs(b1 - a0) < _TOUCH)
    return _BROKEN_CHAIN * min(2, abs(a.row - b.row)) if chained else 0.0


def clashes(placements: Sequence[Placement], clearance: float) -> list[Clash]:
    """Every overlap among `placements`, pair by pair."""
    found = []
    for a, b in combinations(placements, 2):
        kind = clash_between(a, b, clearance)
        if kind is not None:
            found.append(Clash(kind, a, b))
    return found
