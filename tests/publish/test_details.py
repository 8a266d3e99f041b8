"""Details: what they hold, at what scale, under which letter, and that nothing is said twice or lost by them."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publish.drawing.arrange import PartViews
from publish.drawing.box import Box
from publish.drawing.clipping import clipped
from publish.drawing.details import LEAST_READ, details
from publish.drawing.part_drawing import draw_details, draw_part
from publish.drawing.placed import PlacedView
from publish.drawing.records import Label
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.style import HOUSE
from publish.drawing.view import Arc, Bezier, Line, Shape, Stroke, View, axes_of
from publish.drawing.wishes import CalloutWish, DimensionWish, Wish

FREE = Box(15.0, 31.0, 264.0, 201.0)
LONG, WIDE, TONGUE, REACH = 1800.0, 900.0, 10.0, 38.0
LOW = (28.0 - TONGUE) / 2


def outlined(*lines: tuple[float, float, float, float]) -> View:
    strokes = tuple(Stroke("visible", Line((a, b), (c, d))) for a, b, c, d in lines)
    xs, ys = [v for r in lines for v in r[::2]], [v for r in lines for v in r[1::2]]
    return View(axes_of((0, 0, 1), (1, 0, 0)), strokes, Box(min(xs), min(ys), max(xs), max(ys)))


def top() -> tuple[PartViews, list[Wish]]:
    """A table top with a tongue at its right end, and what is to be said of it."""
    face = outlined((0, 0, LONG, 0), (LONG, 0, LONG, WIDE), (LONG, WIDE, 0, WIDE), (0, WIDE, 0, 0))
    end, high = LONG - REACH, LOW + TONGUE
    outline = [(0, 0, end, 0), (0, 28, end, 28), (0, 0, 0, 28), (end, 0, end, LOW), (end, high, end, 28)]
    edge = outlined(*outline, (end, LOW, LONG, LOW), (end, high, LONG, high), (LONG, LOW, LONG, high))
    wishes: list[Wish] = [
        DimensionWish("face", (0, 0), (LONG, 0), "h", "1800", "overall"),
        DimensionWish("face", (0, 0), (0, WIDE), "v", "900", "overall"),
        DimensionWish("edge", (0, 0), (0, 28), "v", "28", "overall"),
        DimensionWish("edge", (LONG, LOW), (LONG, high), "v", "10"),
        DimensionWish("edge", (end, 0), (end, LOW), "v", "9", "position"),
        CalloutWish("edge", (LONG - 5, high), ("TONGUE into breadboard",)),
    ]
    return PartViews(face, edge), wishes


def strings(wishes: list[Wish]) -> list[str]:
    return sorted(w.lines[0] if isinstance(w, CalloutWish) else w.text for w in wishes)  # type: ignore[union-attr]


def test_what_is_too_small_goes_into_a_detail_of_a_standard_scale() -> None:
    """Every wish is on the sheet once; the letter at the frame is the one over the detail (ISO 128-3, from memory)."""
    views, wishes = top()
    drawing = draw_part(views, wishes, FREE, "third", letters="AB")
    assert drawing is not None and not drawing.unplaced and not drawing.waiting
    (seat,) = drawing.details
    assert seat.scale in STANDARD and seat.scale.factor > drawing.scale.factor
    assert TONGUE * drawing.scale.factor < LEAST_READ <= TONGUE * seat.placed.scale
    placed = [p.wish for p in drawing.layout.placements]
    assert strings(placed) == sorted([*strings(wishes), "DETAIL A"])
    inside = {w.text for w in placed if w.view == "detail A" and isinstance(w, DimensionWish)}
    assert {"10", "9"} <= inside and not {"1800", "900"} & inside
    (pointer,) = (w for w in placed if isinstance(w, CalloutWish) and w.view == "edge")
    title = "".join(label.string for label in seat.title(HOUSE) if isinstance(label, Label))
    assert title == f"{pointer.lines[0]} ({seat.scale.name})"
    box = next(v for v in drawing.views if v.key == "edge").box
    assert box.grown(1e-6).holds(Box(*(2 * next(v for v in drawing.views if v.key == "edge").at(pointer.point))))


def test_a_detail_keeps_clear_of_everything() -> None:
    """Counted from boxes: no detail on a view, another detail's title or what is taken."""
    views, wishes = top()
    taken = (Box(15.0, 160.0, 120.0, 201.0),)
    drawing = draw_part(views, wishes, FREE, "third", taken, letters="AB")
    assert drawing is not None
    for seat in drawing.details:
        title = seat.title_box(HOUSE)
        others = [v.box for v in drawing.views if v.key != seat.placed.key]
        assert FREE.holds(seat.placed.box) and FREE.holds(title)
        assert not any(b.meets(o) for b in (seat.placed.box, title) for o in (*others, *taken))
        assert not any(p.text.meets(title) for p in drawing.layout.placements)


def test_details_without_room_come_on_a_sheet_of_their_own() -> None:
    """Nothing is left out: what found no room on the first sheet is all on the next."""
    views, wishes = top()
    assert views.edge is not None
    views = PartViews(views.edge)
    wishes = [replace(wish, view="face") for wish in wishes if wish.view == "edge"]
    drawing = draw_part(views, wishes, Box(15.0, 31.0, 175.0, 86.0), "third", letters="AB")
    assert drawing is not None and drawing.waiting and not drawing.unplaced
    placed = [p.wish for p in drawing.layout.placements]
    second = draw_details(drawing.waiting, views, drawing.scale, FREE, (), HOUSE)
    assert not second.waiting and not second.unplaced
    on_both = [*placed, *(p.wish for p in second.layout.placements)]
    assert strings(on_both) == sorted([*strings(wishes), *(d.name for d in drawing.waiting)])


def test_none_without_letters_and_none_where_all_can_be_read() -> None:
    views, wishes = top()
    without = draw_part(views, wishes, FREE, "third")
    assert without is not None and not without.details
    at_full_size = [PlacedView("edge", views.edge, 0.0, 0.0, 1.0)]  # type: ignore[arg-type]
    assert details(wishes, at_full_size, "AB") == []


def test_nothing_is_made_of_a_size_at_whose_ends_nothing_is_drawn() -> None:
    """The rise of an arc is measured from a chord that no line shows: a detail of it would show nothing."""
    view = outlined((0, 0, 1000, 0), (0, 100, 1000, 100))
    wish = DimensionWish("face", (500, 0), (500, 9), "v", "9")
    assert details([wish], [PlacedView("face", view, 0, 0, 0.1)], "A") == []


coordinate = st.floats(-100, 100).map(lambda v: round(v, 3))
point = st.tuples(coordinate, coordinate)
turn = st.floats(0.3, 6)
shapes = st.one_of(
    st.builds(Line, point, point),
    st.builds(lambda c, r, a, t: Arc(c, r, a, a + t), point, st.floats(5, 80), st.floats(0, 6), st.floats(0.3, 6)),
    st.builds(lambda *p: Bezier(p), point, point, point, point),
)


def ends(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Line):
        return [shape.start, shape.end]
    if isinstance(shape, Bezier):
        return [shape.points[0], shape.points[3]]
    (x, y), r = shape.centre, shape.radius
    return [(x + r * math.cos(a), y + r * math.sin(a)) for a in (shape.start, shape.end)]


@given(shapes)
def test_what_is_clipped_lies_in_the_frame_and_ends_on_it_or_where_it_did(shape: Shape) -> None:
    """Closed formula: an end of what is kept is an end of the shape or lies on the frame."""
    frame = Box(-40.0, -25.0, 40.0, 25.0)
    view = View(axes_of((0, 0, 1), (1, 0, 0)), (Stroke("visible", shape),), Box(-100, -100, 100, 100))
    corner = 0.18 * 50.0
    inner = frame.grown(-corner)
    for stroke in clipped(view, frame).strokes:
        if stroke.kind == "frame":
            continue
        for x, y in ends(stroke.shape):
            off = math.hypot(max(inner.left - x, 0, x - inner.right), max(inner.bottom - y, 0, y - inner.top))
            assert off <= corner + 1e-6
            was = any(math.dist((x, y), end) < 1e-6 for end in ends(shape))
            assert was or off == pytest.approx(corner, abs=1e-4)


def test_a_short_piece_of_a_long_line_is_found() -> None:
    """Two metres of edge through a frame of 30 mm: 30 mm are kept."""
    view = outlined((0, 0, 2000, 0))
    (kept,) = (s for s in clipped(view, Box(990, -15, 1020, 15)).strokes if s.kind == "visible")
    assert isinstance(kept.shape, Line)
    assert kept.shape.start[0] == pytest.approx(990, abs=1e-4)
    assert kept.shape.end[0] == pytest.approx(1020, abs=1e-4)


def test_scales_of_details_are_standard_and_larger() -> None:
    """ISO 5455's series and the house's, whatever the scale of the views."""
    views, wishes = top()
    for scale in (s for s in STANDARD if s.factor <= 0.2):
        placed = [PlacedView("edge", views.edge, 0, 0, Scale(1, scale.real).factor)]  # type: ignore[arg-type]
        for detail in details(wishes, placed, "AB"):
            assert detail.scales and set(detail.scales) <= set(STANDARD)
            assert all(s.factor > scale.factor for s in detail.scales)
