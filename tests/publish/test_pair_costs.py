"""Costs worked out in arrays, judged by the same costs worked out pair by pair, and by shapely."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from typing import TypeVar

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from publish.drawing.box import Box, Segment, segment_meets_box, segments_cross
from publish.drawing.clashes import clash_between
from publish.drawing.dimension_places import dimension_places
from publish.drawing.note_places import angle_places, callout_places
from publish.drawing.pair_costs import PairCosts
from publish.drawing.placed import PlacedView
from publish.drawing.placement import Ground, Placement
from publish.drawing.search import CLASH_COST, Column, Search
from publish.drawing.segments import Floats, cross, far_from, run_through, stacked
from publish.drawing.style import HOUSE
from publish.drawing.view import Line, Stroke, View, axes_of
from publish.drawing.wishes import AngleWish, CalloutWish, DimensionWish

shapely = pytest.importorskip("shapely")

CLEARANCE = 0.75
PLACE = st.integers(0, 24).map(lambda n: n / 2)
FAR = st.integers(0, 60).map(float)
LINE = st.tuples(FAR, FAR, FAR, FAR).filter(lambda s: s[:2] != s[2:])

P = TypeVar("P")


def one_by_one(candidates: Sequence[Sequence[P]], cost_of_two: Callable[[P, P], float]) -> Column:
    """The columns of a cost that is worked out pair by pair."""

    def column(i: int, c: int) -> Floats:
        one = candidates[i][c]
        return np.array(
            [0.0 if j == i else cost_of_two(other, one) for j, some in enumerate(candidates) for other in some],
            dtype=np.float64,
        )

    return column


def unsightly(a: Placement, b: Placement) -> float:
    """What two placements cost short of an overlap, said plainly."""
    cost = order_cost(a, b)
    if not a.box.meets(b.box):
        return cost
    for one, other in ((a, b), (b, a)):
        line = () if one.dimension is None else (one.dimension,)
        cost += 8 * crossed(other.extensions, line) + 30 * crossed(other.leader, line)
        cost += 10 * crossed(other.leader, one.extensions)
    if a.dimension and b.dimension and direction(a) != direction(b):
        cost += 40 * segments_cross(a.dimension, b.dimension) + crossed(a.extensions, b.extensions)
    return cost


def direction(p: Placement) -> str:
    return p.wish.direction if isinstance(p.wish, DimensionWish) else ""


def crossed(first: tuple[Segment, ...], second: tuple[Segment, ...]) -> int:
    return sum(segments_cross(p, q) and segments_cross(cut(p), cut(q)) for p in first for q in second)


def cut(s: Segment) -> Segment:
    if s.length < 1:
        return s
    share = 0.25 / s.length
    dx, dy = (s.x1 - s.x0) * share, (s.y1 - s.y0) * share
    return Segment(s.x0 + dx, s.y0 + dy, s.x1 - dx, s.y1 - dy)


def order_cost(a: Placement, b: Placement) -> float:
    if a.side is None or b.side is None or a.wish.view != b.wish.view or direction(a) != direction(b):
        return 0
    assert isinstance(a.wish, DimensionWish) and isinstance(b.wish, DimensionWish)
    together = a.wish.group != "" and a.wish.group == b.wish.group
    if a.side != b.side:
        return 18 if together else 0
    for one, other in ((a, b), (b, a)):
        (a0, a1), (b0, b1) = one.span, other.span
        if a0 <= b0 + 0.3 and a1 >= b1 - 0.3 and a1 - a0 > b1 - b0 + 0.3:
            return 300 if one.row <= other.row else 0
    chained = abs(a.span[1] - b.span[0]) < 0.3 or abs(b.span[1] - a.span[0]) < 0.3
    return 10 * min(2, abs(a.row - b.row)) if together and chained else 0


@st.composite
def dimensions(draw: st.DrawFn) -> Placement:
    way = draw(st.sampled_from(["h", "v"]))
    a, b = sorted(draw(st.tuples(PLACE, PLACE)))
    at, foot, row = draw(PLACE), draw(PLACE), draw(st.integers(0, 3))

    def turned(*s: float) -> Segment:
        return Segment(*s) if way == "h" else Segment(s[1], s[0], s[3], s[2])

    side = draw(st.sampled_from(["below", "above"] if way == "h" else ["left", "right"]))
    wish = DimensionWish(
        draw(st.sampled_from(["face", "edge"])),
        (a, 0),
        (b, 0),
        way,
        "7",
        group=draw(st.sampled_from(["", "one", "two"])),
    )
    x, y = draw(PLACE), draw(PLACE)
    return Placement(
        wish,
        Box(x, y, x + 2, y + 1),
        (),
        0.0,
        (turned(a, at, (a + b) / 2, at), turned((a + b) / 2, at, b, at)),
        (turned(a, foot, a, at), turned(b, foot, b, at)),
        dimension=turned(a, at, b, at),
        side=side,
        row=row,
        span=(a, b),
    )


@st.composite
def notes(draw: st.DrawFn) -> Placement:
    x, y, x0, y0, x1, y1 = (draw(PLACE) for _ in range(6))
    wish = CalloutWish("face", (0, 0), ("NOTE",))
    return Placement(wish, Box(x, y, x + 3, y + 1.5), (), 0.0, leader=(Segment(x0, y0, x1, y1), Segment(x1, y1, x, y1)))


@st.composite
def angles(draw: st.DrawFn) -> Placement:
    x, y, x0, y0, x1, y1 = (draw(PLACE) for _ in range(6))
    wish = AngleWish("face", (0, 0), 0, 90, "90°")
    return Placement(
        wish,
        Box(x, y, x + 2, y + 1),
        (),
        0.0,
        strokes=(Segment(x0, y0, x0 + 1, y0 + 1), Segment(x0 + 1, y0 + 1, x1, y1)),
        extensions=(Segment(x0, y0, x1, y0), Segment(x0, y0, x0, y1)),
    )


SHEETS = st.lists(st.lists(st.one_of(dimensions(), notes(), angles()), max_size=4), min_size=2, max_size=5)


@settings(max_examples=150, deadline=None)
@given(SHEETS)
def test_a_column_is_what_the_pairs_cost_one_by_one(candidates: list[list[Placement]]) -> None:
    pairs = PairCosts(candidates, CLEARANCE)
    plain = one_by_one(
        candidates, lambda a, b: unsightly(a, b) + CLASH_COST * (clash_between(a, b, CLEARANCE) is not None)
    )
    for i, some in enumerate(candidates):
        for c in range(len(some)):
            assert pairs.column(i, c).tolist() == plain(i, c).tolist()


@settings(max_examples=100, deadline=None)
@given(st.lists(LINE, min_size=1, max_size=8), LINE)
def test_crossings_are_those_that_shapely_finds(raw: list[tuple[float, ...]], one: tuple[float, ...]) -> None:
    lines, other = [Segment(*s) for s in raw], Segment(*one)
    drawn, there = [shapely.LineString([s[:2], s[2:]]) for s in raw], shapely.LineString([one[:2], one[2:]])
    assert cross(stacked(lines), stacked([other])).tolist() == [s.intersects(there) for s in drawn]
    box = Box(*np.minimum(one[:2], one[2:]), *(np.maximum(one[:2], one[2:]) + 1.0))
    inner = shapely.box(*box).buffer(-1e-9)
    assert run_through(stacked(lines), stacked([box])).tolist() == [s.intersects(inner) for s in drawn]
    assert run_through(stacked(lines), stacked([box])).tolist() == [segment_meets_box(s, box) for s in lines]


@settings(max_examples=100, deadline=None)
@given(st.lists(LINE, min_size=1, max_size=8), st.tuples(FAR, FAR))
def test_distances_are_those_that_shapely_finds(raw: list[tuple[float, ...]], point: tuple[float, float]) -> None:
    expected = [shapely.LineString([s[:2], s[2:]]).distance(shapely.Point(point)) for s in raw]
    assert far_from(np.array(point)[:, None], stacked([Segment(*s) for s in raw])) == pytest.approx(expected, abs=1e-9)


def board(key: str, x: float, y: float, width: float, height: float) -> PlacedView:
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    strokes = tuple(Stroke("visible", Line(p, q)) for p, q in zip(corners, corners[1:] + corners[:1], strict=True))
    view = View(axes_of((0, -1, 0), (1, 0, 0)), strokes, Box(0, 0, width, height))
    return PlacedView(key, view, x, y, 1.0)


def test_places_keep_clear_of_views_and_of_what_is_taken() -> None:
    views = {v.key: v for v in (board("face", 60, 60, 80, 40), board("end", 165, 60, 20, 40))}
    ground = Ground(Box(15, 31, 220, 150), views, (Box(15, 120, 80, 150),))
    found = [
        *dimension_places(DimensionWish("face", (0, 0), (80, 0), "h", "80"), ground, HOUSE, False),
        *dimension_places(DimensionWish("face", (80, 0), (80, 30), "v", "30"), ground, HOUSE, True),
        *callout_places(CalloutWish("face", (75, 20), ("MORTISE", "deep")), ground, HOUSE),
        *angle_places(AngleWish("face", (0, 0), 0, 90, "90°"), ground, HOUSE),
    ]
    assert len(found) > 100
    barred = shapely.union_all([shapely.box(*b) for b in (views["end"].box, *ground.taken)])
    strokes = shapely.union_all([shapely.LineString([s[:2], s[2:]]) for v in views.values() for s in v.segments])
    free = shapely.box(*ground.free).buffer(1e-6)
    for p in found:
        ink = shapely.box(*p.text)
        lines = shapely.union_all([shapely.LineString([s[:2], s[2:]]) for s in p.lines])
        assert free.covers(ink) and free.covers(lines)
        assert not ink.intersects(barred) and not ink.intersects(strokes)
        assert not lines.intersects(barred.buffer(-1e-6))
    assert any(shapely.box(*views["face"].box).covers(shapely.box(*p.text)) for p in found)


COSTS = st.integers(0, 6).map(lambda n: (0.0, 0.0, 0.0, 1.0, 8.0, 300.0, CLASH_COST)[n])


@settings(max_examples=100, deadline=None)
@given(st.data(), st.integers(1, 5), st.integers(1, 4))
def test_a_search_ends_with_nothing_on_top_of_another_and_knows_its_cost(data: st.DataObject, n: int, k: int) -> None:
    own = [sorted(data.draw(st.lists(st.floats(0, 20), min_size=k, max_size=k))) for _ in range(n)]
    table = {(i, c, j, d): data.draw(COSTS) for i, j in combinations(range(n), 2) for c in range(k) for d in range(k)}

    def of_two(one: tuple[int, int], other: tuple[int, int]) -> float:
        return table.get((*one, *other), table.get((*other, *one), 0.0))

    search = Search(own, one_by_one([[(i, c) for c in range(k)] for i in range(n)], of_two))
    search.run(range(n))
    search.clear()
    chosen = [(i, c) for i, c in enumerate(search.chosen) if c is not None]
    pairs = [of_two(a, b) for a, b in combinations(chosen, 2)]
    assert chosen and max(pairs, default=0.0) < CLASH_COST
    assert search.total() == pytest.approx(sum(own[i][c] for i, c in chosen) + sum(pairs))
    # nothing left off would have found a place
    for i in range(n):
        if search.chosen[i] is None:
            assert all(any(of_two((i, c), p) >= CLASH_COST for p in chosen) for c in range(k))


def test_a_better_place_is_taken_from_another() -> None:
    """The second is set down last and in the way of the first's cheap place; moving both is cheaper than either."""
    own = [[0.0, 50.0], [0.0, 1.0]]
    costs = {(0, 0): CLASH_COST, (1, 0): 0.0, (0, 1): 0.0, (1, 1): 0.0}
    search = Search(
        own, one_by_one([[(0, 0), (0, 1)], [(1, 0), (1, 1)]], lambda a, b: costs[min(a, b)[1], max(a, b)[1]])
    )
    search.choose(1, 0)
    search.choose(0, search.best(0)[1])
    assert search.chosen == [1, 0]
    assert search.displace() and search.chosen == [0, 1] and search.total() == 1.0
