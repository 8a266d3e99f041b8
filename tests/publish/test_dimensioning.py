"""The dimension placer judged by shapely, a geometry library of its own, and by drawing-office practice."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from publish.drawing.box import Box, Segment
from publish.drawing.dimensioning import Layout, overlaps, place
from publish.drawing.placed import PlacedView
from publish.drawing.placement import Placement
from publish.drawing.records import Label, box_of
from publish.drawing.style import HOUSE, HouseStyle
from publish.drawing.view import Line, Stroke, View, axes_of
from publish.drawing.wishes import AngleWish, CalloutWish, DimensionWish, Wish

shapely = pytest.importorskip("shapely")

FREE = Box(15.0, 31.0, 264.0, 201.0)
AXES = axes_of((0, -1, 0), (1, 0, 0))


def board(width: float, height: float) -> View:
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    strokes = tuple(Stroke("visible", Line(p, q)) for p, q in zip(corners, corners[1:] + corners[:1], strict=True))
    return View(AXES, strokes, Box(0, 0, width, height))


def set_down(view: View, x: float = 90.0, y: float = 90.0, scale: float = 0.2, key: str = "face") -> PlacedView:
    return PlacedView(key, view, x, y, scale)


def across(a: float, b: float, text: str = "100", **more: str) -> DimensionWish:
    return DimensionWish("face", (a, 0.0), (b, 0.0), "h", text, **more)  # type: ignore[arg-type]


def area(box: Box):
    return shapely.box(box.left, box.bottom, box.right, box.top)


def line(s: Segment):
    return shapely.LineString([(s.x0, s.y0), (s.x1, s.y1)])


def faults(layout: Layout, views: list[PlacedView], free: Box) -> list[str]:
    """What shapely finds on top of what, from boxes of the drawn letters and from the drawn lines."""
    found = []
    inks = {id(p): [area(r.box) for r in p.records(HOUSE) if isinstance(r, Label)] for p in layout.placements}
    for p in layout.placements:
        if not area(free).buffer(1e-6).covers(shapely.union_all(inks[id(p)])):
            found.append("off the sheet")
        strokes = shapely.union_all([line(s) for v in views for s in v.segments])
        if any(strokes.intersects(ink) for ink in inks[id(p)]):
            found.append("text on view")
    for a, b in combinations(layout.placements, 2):
        found += _between(a, b, inks)
    return found


def _between(a: Placement, b: Placement, inks: dict[int, list[object]]) -> list[str]:
    found = []
    if any(p.intersects(q) for p in inks[id(a)] for q in inks[id(b)]):  # type: ignore[attr-defined]
        found.append("text on text")
    for one, other in ((a, b), (b, a)):
        if any(line(s).intersects(p) for s in one.lines for p in inks[id(other)]):
            found.append("text on line")
    if any(line(s).intersects(line(t)) for s in a.leader for t in b.leader):
        found.append("leader on leader")
    return found


EDGES = st.integers(0, 12)


@st.composite
def sheets(draw: st.DrawFn) -> tuple[list[PlacedView], list[Wish]]:
    width, height = draw(st.integers(60, 600)), draw(st.integers(20, 250))
    view = set_down(board(width, height), draw(st.integers(50, 110)), draw(st.integers(75, 110)), 0.2)
    wishes: list[Wish] = []
    for _ in range(draw(st.integers(0, 12))):
        direction = draw(st.sampled_from(["h", "v"]))
        a, b = sorted(draw(st.tuples(EDGES, EDGES).filter(lambda t: t[0] != t[1])))
        other = draw(EDGES)
        if direction == "h":
            p0, p1 = (a * width / 12, other * height / 12), (b * width / 12, 0.0)
        else:
            p0, p1 = (other * width / 12, a * height / 12), (0.0, b * height / 12)
        text = draw(st.sampled_from(["3⁄4″", "16 13⁄16″", "426.5", "7"]))
        wishes.append(DimensionWish("face", p0, p1, direction, text, also=draw(st.sampled_from(["", "103"]))))
    for n in range(draw(st.integers(0, 6))):
        point = draw(EDGES) * width / 12, draw(EDGES) * height / 12
        wishes.append(CalloutWish("face", point, (f"MORTISE {n}", "1″ × 5⁄16″, 1⁄2″ deep")[: draw(st.integers(1, 2))]))
    return [view], wishes


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(sheets())
def test_any_sheet_has_no_overlaps_and_loses_no_wish(sheet: tuple[list[PlacedView], list[Wish]]) -> None:
    views, wishes = sheet
    layout = place(wishes, views, FREE)
    assert overlaps(layout) == []
    assert faults(layout, views, FREE) == []
    told = [p.wish for p in layout.placements] + list(layout.unplaced)
    assert sorted(map(repr, told)) == sorted(map(repr, wishes))


def test_overlaps_are_found_where_there_are_some() -> None:
    layout = place([across(0, 400, "400")], [set_down(board(400, 100))], FREE)
    twice = Layout(layout.placements * 2, (), 0.0)
    assert [c.kind for c in overlaps(twice)] == ["text on text"]
    note = place([CalloutWish("face", (200, 100), ("NOTE",))], [set_down(board(400, 100))], FREE)
    assert faults(Layout(note.placements * 2, (), 0.0), [], FREE)


def lines_below(layout: Layout) -> dict[str, float]:
    """The height of each dimension line, by its text."""
    return {p.wish.text: p.dimension.y0 for p in layout.placements if p.dimension}  # type: ignore[union-attr]


def test_rows_are_ten_then_seven_and_a_half_millimetres_short_inside_long() -> None:
    """10 mm and 7 mm or more: DIN 406-11 and US practice, as in the project's table of checked values."""
    view = set_down(board(500, 150))
    wishes = [across(0, 500, "500"), across(0, 150, "150"), across(0, 320, "320")]
    at = lines_below(place(wishes, [view], FREE))
    assert view.box.bottom - at["150"] == pytest.approx(10.0)
    assert at["150"] - at["320"] == pytest.approx(7.5)
    assert at["320"] - at["500"] == pytest.approx(7.5)


def test_a_chain_stands_in_one_row() -> None:
    wishes = [across(a, a + 120, str(a), group="chain") for a in (0, 120, 240, 360)]
    layout = place(wishes, [set_down(board(480, 150))], FREE)
    assert len({round(y, 6) for y in lines_below(layout).values()}) == 1


def test_arrows_stand_outside_a_short_span() -> None:
    """Under 16 pt, the house's own limit."""
    for span, outside in ((27.0, True), (29.0, False)):
        (p,) = place([across(100, 100 + span, "5")], [set_down(board(500, 150))], FREE).placements
        assert p.dimension is not None
        assert (p.dimension.length > span * 0.2 + 0.1) is outside


def test_extension_lines_start_off_the_feature_and_run_past_the_line() -> None:
    (p,) = place([across(0, 400, "400")], [set_down(board(400, 100))], FREE).placements
    for e in p.extensions:
        assert e.y0 == pytest.approx(90 - HOUSE.spacing.extension_gap)
        assert p.dimension is not None
        assert e.y1 == pytest.approx(p.dimension.y0 - HOUSE.spacing.extension_overshoot)


def test_a_reference_size_stands_in_brackets() -> None:
    (p,) = place([across(0, 400, "400", role="reference")], [set_down(board(400, 100))], FREE).placements
    assert "".join(r.string for r in p.records(HOUSE) if isinstance(r, Label)) == "(400)"


def test_values_on_upright_lines_read_from_the_bottom_or_from_the_right() -> None:
    wish = DimensionWish("face", (0, 0), (0, 300), "v", "300")
    for style, turned in ((HOUSE, 0), (HouseStyle(reading="aligned"), 90)):
        (p,) = place([wish], [set_down(board(200, 300))], FREE, style=style).placements
        (label,) = [r for r in p.records(style) if isinstance(r, Label)]
        assert label.rotation == turned


def test_what_has_no_place_is_handed_back() -> None:
    view = set_down(board(200, 200), 30, 50)
    tight = view.box.grown(4.0)
    wish = across(0, 200, "200")
    layout = place([wish], [view], tight)
    assert layout.placements == () and layout.unplaced == (wish,)
    assert layout.records() == []


def test_boxes_taken_are_kept_clear() -> None:
    view = set_down(board(400, 100))
    taken = Box(view.box.left - 5, view.box.bottom - 60, view.box.right + 5, view.box.bottom - 3)
    layout = place([across(0, 400, "400"), CalloutWish("face", (200, 0), ("FOOT",))], [view], FREE, [taken])
    assert not layout.unplaced
    assert not any(r.box.meets(taken) for r in layout.records() if isinstance(r, Label))


def test_an_angle_is_placed_clear_of_the_strokes_with_its_arc_about_the_corner() -> None:
    view = set_down(board(400, 200))
    (p,) = place([AngleWish("face", (0, 0), 0.0, 90.0, "90°")], [view], FREE).placements
    (arc,) = p.arcs
    assert arc.centre == pytest.approx((90, 90))
    assert not any(line(s).intersects(area(p.text)) for s in view.segments)
    assert box_of(p.records(HOUSE)).width > arc.radius


def test_a_wish_about_no_view_is_our_own_error() -> None:
    with pytest.raises(KeyError):
        place([DimensionWish("back", (0, 0), (1, 0), "h", "1")], [set_down(board(10, 10))], FREE)


def test_two_notes_of_one_point_find_place_where_one_can_be_told_elsewhere() -> None:
    """Leaders to one point meet there, and leaders may not meet (drawing practice): a groove is told further along."""
    view = set_down(board(400, 100))
    mortise, groove = CalloutWish("face", (200, 50), ("MORTISE",)), CalloutWish("face", (200, 50), ("GROOVE",))
    assert len(place([mortise, groove], [view], FREE).unplaced) == 1
    layout = place([mortise, CalloutWish("face", (200, 50), ("GROOVE",), others=((300, 50),))], [view], FREE)
    assert not layout.unplaced and overlaps(layout) == []
    tips = {p.wish.lines[0]: (p.leader[0].x0, p.leader[0].y0) for p in layout.placements}  # type: ignore[union-attr]
    assert tips["MORTISE"] == pytest.approx(view.at((200, 50)))
    assert tips["GROOVE"] == pytest.approx(view.at((300, 50)))
