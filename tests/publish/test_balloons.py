"""Balloons judged by shapely: no circle on another, no leaders that cross, everything clear of the view."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from publish.drawing.balloon_costs import CLEAR, NEAR_ANCHOR, NEAR_COST, BalloonCosts
from publish.drawing.balloons import BalloonLayout, BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box, Segment
from publish.drawing.records import Circle, Label

shapely = pytest.importorskip("shapely")

FREE = Box(15.0, 31.0, 264.0, 201.0)
BOXES = st.lists(
    st.tuples(st.integers(50, 200), st.integers(60, 150), st.integers(4, 40), st.integers(4, 20)),
    min_size=1,
    max_size=14,
    unique_by=lambda b: b[:2],
)


def area(box: Box):
    return shapely.box(box.left, box.bottom, box.right, box.top)


def line(s: Segment):
    return shapely.LineString([(s.x0, s.y0), (s.x1, s.y1)])


def set_round(parts: list[Box]) -> BalloonLayout:
    wishes = [BalloonWish(str(n), p.centre, "×2" if n % 2 else "") for n, p in enumerate(parts, 1)]
    return place_balloons(wishes, Occupied(FREE, parts))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(BOXES)
def test_balloons_overlap_nothing_and_leaders_never_cross(raw: list[tuple[int, int, int, int]]) -> None:
    parts = [Box(x, y, x + w, y + h) for x, y, w, h in raw]
    layout = set_round(parts)
    assert len(layout.balloons) + len(layout.unplaced) == len(parts)
    for b in layout.balloons:
        assert FREE.holds(b.box)
        assert not any(area(b.box).intersects(area(p)) for p in parts)
    for a, b in combinations(layout.balloons, 2):
        assert not area(a.box).intersects(area(b.box))
        assert not line(a.leader).intersects(line(b.leader))
        assert not line(a.leader).intersects(area(b.box)) and not line(b.leader).intersects(area(a.box))


def test_a_leader_runs_straight_from_inside_the_part_to_the_circle() -> None:
    (b,) = set_round([Box(100, 100, 140, 120)]).balloons
    assert (b.leader.x0, b.leader.y0) == (120, 110)
    assert np.hypot(b.leader.x1 - b.x, b.leader.y1 - b.y) == pytest.approx(b.radius)
    assert b.leader.length < 30


def test_the_quantity_is_part_of_the_box() -> None:
    (b, _) = set_round([Box(60, 100, 80, 120), Box(160, 100, 180, 120)]).balloons
    (text,) = [r for r in b.records() if isinstance(r, Label) and r.string == "×2"]
    assert b.box.grown(0.01).left <= text.box.left and text.box.right <= b.box.grown(0.01).right
    assert len([r for r in b.records() if isinstance(r, Circle)]) == 2


SPOT = st.tuples(st.integers(0, 60), st.integers(0, 60))
PLACE = st.tuples(SPOT, SPOT, st.integers(1, 9))


@settings(max_examples=60, deadline=None)
@given(st.lists(PLACE, min_size=2, max_size=12))
def test_what_balloons_cost_together_is_what_shapely_says(
    raw: list[tuple[tuple[int, int], tuple[int, int], int]],
) -> None:
    """Circles are held apart as boxes; touching to within a hair is left out, where rounding decides."""
    places = [(Box(x - r, y - r, x + r, y + r), Segment(ax, ay, x, y), (ax, ay)) for (ax, ay), (x, y), r in raw]
    column = BalloonCosts([[place] for place in places]).column(0, 0)
    own, leader, anchor = places[0]
    for (box, other, spot), cost in zip(places[1:], column[1:], strict=True):
        grown = area(own.grown(CLEAR / 2)), area(box.grown(CLEAR / 2))
        near = sum(shapely.Point(p).distance(line(s)) < NEAR_ANCHOR for p, s in ((anchor, other), (spot, leader)))
        clash = (
            grown[0].intersection(grown[1]).area > 0
            or line(leader).intersects(line(other))
            or line(other).intersection(grown[0]).length > 0
            or line(leader).intersection(grown[1]).length > 0
        )
        assert cost == 1000.0 * clash + NEAR_COST * near
    assert column[0] == 0.0


def test_marks_come_back_in_order_and_the_same_every_time() -> None:
    parts = [Box(60 + 20 * n, 80 + 5 * (n % 3), 75 + 20 * n, 90 + 5 * (n % 3)) for n in range(8)]
    first, second = set_round(parts), set_round(parts)
    assert [b.wish.mark for b in first.balloons] == [str(n) for n in range(1, 9)]
    assert [(b.x, b.y) for b in first.balloons] == [(b.x, b.y) for b in second.balloons]


def test_no_room_is_said_and_not_drawn_over_the_view() -> None:
    layout = set_round([FREE])
    assert layout.balloons == () and len(layout.unplaced) == 1


def test_a_grid_of_parts_serves_as_well_as_boxes() -> None:
    grid = np.zeros((17, 25), bool)
    grid[5:9, 6:20] = True
    occupied = Occupied(FREE)
    occupied.add_grid(grid, FREE)
    x, y = FREE.left + 10 * FREE.width / 25, FREE.bottom + 7 * FREE.height / 17
    (b,) = place_balloons([BalloonWish("1", (x, y))], occupied).balloons
    taken = Box(
        FREE.left + 6 * FREE.width / 25,
        FREE.bottom + 5 * FREE.height / 17,
        FREE.left + 20 * FREE.width / 25,
        FREE.bottom + 9 * FREE.height / 17,
    )
    assert not b.box.meets(taken)
    assert not occupied.empty(taken) and occupied.empty(b.box)
