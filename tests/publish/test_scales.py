"""Scales and the setting out of views."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publish.drawing.arrange import PartViews, Room, arrange
from publish.drawing.box import Box
from publish.drawing.part_drawing import draw_part
from publish.drawing.scales import STANDARD, Scale, largest_that_fits, scales_that_fit
from publish.drawing.view import Line, Stroke, View, axes_of
from publish.drawing.wishes import DimensionWish

FREE = Box(15.0, 31.0, 264.0, 201.0)


def seen(width: float, height: float, left: float = 0.0, bottom: float = 0.0) -> View:
    box = Box(left, bottom, left + width, bottom + height)
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    strokes = tuple(Stroke("visible", Line(p, q)) for p, q in zip(corners, corners[1:] + corners[:1], strict=True))
    return View(axes_of((0, -1, 0), (1, 0, 0)), strokes, box)


PART = PartViews(seen(400, 60), seen(400, 30, bottom=5), seen(30, 60, left=7))


def test_the_scales_of_iso_5455_down_to_1_to_20_are_there() -> None:
    """ISO 5455: 2:1, 1:1, 1:2, 1:5, 1:10, 1:20 (reductions from memory)."""
    names = [s.name for s in STANDARD]
    assert {"2 : 1", "1 : 1", "1 : 2", "1 : 5", "1 : 10", "1 : 20"} <= set(names)
    assert {"1 : 2.5", "1 : 3"} <= set(names)
    factors = [s.factor for s in STANDARD]
    assert factors == sorted(factors, reverse=True)


@given(st.floats(5, 3000), st.floats(5, 3000))
def test_the_largest_scale_fits_and_the_next_larger_does_not(width: float, height: float) -> None:
    room, margin = (249.0, 170.0), (50.0, 40.0)
    scale = largest_that_fits(width, height, room, margin)
    fits = [s for s in STANDARD if width * s.factor + 50 <= 249 + 1e-9 and height * s.factor + 40 <= 170 + 1e-9]
    assert scale == (fits[0] if fits else None)
    assert list(scales_that_fit(width, height, room, margin)) == fits


def test_a_leg_of_450_mm_goes_on_letter_at_1_to_2_and_a_half_with_room_at_its_ends() -> None:
    assert largest_that_fits(450, 45, (249, 170), (50, 40)) == Scale(1, 2.5)


@pytest.mark.parametrize(
    ("projection", "edge_from", "end_from", "edge_up", "end_right"),
    [
        ("third", "above", "right", True, True),
        ("third", "below", "left", False, False),
        ("first", "above", "right", False, False),
        ("first", "below", "left", True, True),
    ],
)
def test_views_stand_where_the_projection_puts_them(projection, edge_from, end_from, edge_up, end_right) -> None:
    """ISO 5456-2 (from memory): third angle puts a view on the side it is seen from, first angle on the far side."""
    views = PartViews(PART.face, PART.edge, PART.end, edge_from, end_from)
    placed = arrange(views, Scale(1, 5), FREE, projection)
    assert placed is not None
    face, edge, end = placed
    assert (edge.box.bottom > face.box.top) is edge_up
    assert (end.box.left > face.box.right) is end_right
    assert edge.x == face.x, "origin over origin"
    assert end.y == face.y
    for view in placed:
        assert FREE.holds(view.box)


def test_views_that_do_not_fit_are_not_set_out() -> None:
    assert arrange(PART, Scale(2, 1), FREE, "third") is None
    assert arrange(PartViews(seen(100, 100)), Scale(1, 1), FREE, "third") is not None


def test_room_for_dimensions_is_kept_round_the_views() -> None:
    room = Room(left=30, right=31, below=32, above=33)
    placed = arrange(PartViews(seen(100, 50)), Scale(1, 1), FREE, "third", room)
    assert placed is not None
    (face,) = placed
    assert face.box.left - FREE.left >= 30 and FREE.right - face.box.right >= 31
    assert face.box.bottom - FREE.bottom >= 32 and FREE.top - face.box.top >= 33


def test_a_part_is_drawn_at_the_largest_scale_that_takes_all_its_sizes() -> None:
    few = [
        DimensionWish("face", (0, 0), (400, 0), "h", "400", "overall"),
        DimensionWish("face", (0, 0), (0, 60), "v", "60", "overall"),
    ]
    drawing = draw_part(PART, few, FREE, "third")
    assert drawing is not None and not drawing.layout.unplaced
    assert drawing.scale == Scale(1, 3)
    assert {v.key for v in drawing.views} == {"face", "edge", "end"}
    assert draw_part(PartViews(seen(9000, 9000)), few, FREE, "third") is None
