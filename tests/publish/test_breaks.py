"""Broken parts: what is left out is plain, the rest keeps its shape, and every number stays what it was."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publish.drawing.arrange import PartViews
from publish.drawing.box import Box
from publish.drawing.breaks import MOST, broken
from publish.drawing.part_drawing import draw_part
from publish.drawing.view import Line, Stroke, View, axes_of
from publish.drawing.wishes import CalloutWish, DimensionWish, Wish

FREE = Box(15.0, 31.0, 264.0, 201.0)
HIGH = 60.0


def rail(long: float, cross: list[float]) -> View:
    """A board with a line right across it at each of some places."""
    level = [Line((0.0, y), (long, y)) for y in (0.0, HIGH)]
    upright = [Line((x, 0.0), (x, HIGH)) for x in (0.0, *cross, long)]
    strokes = tuple(Stroke("visible", line) for line in (*level, *upright))
    return View(axes_of((0, -1, 0), (1, 0, 0)), strokes, Box(0.0, 0.0, long, HIGH))


def from_the_end(long: float, cross: list[float]) -> list[Wish]:
    return [DimensionWish("face", (0.0, 0.0), (x, 0.0), "h", f"{x:g}", "position") for x in (*cross, long)]


lengths = st.floats(600, 2500)
shares = st.lists(st.floats(0.05, 0.95), max_size=4)


@given(lengths, shares, st.floats(0.3, 0.9), st.sampled_from([0.2, 0.5, 1.0]))
def test_a_broken_part_is_as_long_as_asked_and_keeps_every_line(
    long: float, at: list[float], part_of: float, factor: float
) -> None:
    """Closed formulas: its length is the room there is; lines across it stay as many, in order and no further apart."""
    cross = sorted(round(share * long, 3) for share in at)
    view, wishes = rail(long, cross), from_the_end(long, cross)
    less = broken(PartViews(view), wishes, factor, part_of * long * factor, MOST)
    if less is None:
        return
    assert less.views.face.box.width == pytest.approx(part_of * long, abs=0.01)
    upright = [
        s.shape.start[0]
        for s in less.views.face.strokes
        if s.kind != "break" and isinstance(s.shape, Line) and s.shape.start[0] == s.shape.end[0]
    ]
    before = [0.0, *cross, long]
    upright.sort()
    assert len(upright) == len(before)
    gaps = zip(pairwise(before), pairwise(upright), strict=True)
    assert all(0 <= b - a <= q - p + 0.01 for (p, q), (a, b) in gaps)
    for wish, moved in zip(wishes, less.wishes, strict=True):
        assert isinstance(wish, DimensionWish) and isinstance(moved, DimensionWish)
        assert moved.text == wish.text
        assert min(abs(moved.p1[0] - x) for x in upright) < 0.01


def test_nothing_is_left_out_of_a_tapered_part_or_where_it_fits() -> None:
    view = rail(1200.0, [])
    tapered = View(view.axes, (*view.strokes, Stroke("visible", Line((0.0, 10.0), (1200.0, 20.0)))), view.box)
    assert broken(PartViews(tapered), [], 0.5, 190.0, MOST) is None
    assert broken(PartViews(view), [], 0.1, 190.0, MOST) is None
    assert broken(PartViews(view), [], 0.25, 190.0, MOST) is not None


def test_a_long_rail_is_drawn_broken_and_larger_with_its_numbers_unchanged() -> None:
    """At the same room on paper unbroken it would have to be at 1:6 (the length of the rail over that of the sheet)."""
    cross = [16.0, 470.0, 514.0, 984.0]
    view, wishes = rail(1000.0, cross), from_the_end(1000.0, cross)
    wishes += [
        DimensionWish("face", (0.0, 0.0), (0.0, HIGH), "v", "60", "overall"),
        CalloutWish("face", (250.0, 30.0), ("GROOVE",)),
    ]
    drawing = draw_part(PartViews(view), wishes, FREE, "third")
    assert drawing is not None and not drawing.unplaced
    assert 1000.0 * drawing.scale.factor > FREE.width
    assert FREE.holds(drawing.views[0].box)
    told = sorted(str(p.wish.text if isinstance(p.wish, DimensionWish) else p.wish) for p in drawing.layout.placements)
    assert len(told) == len(wishes) and {"470", "1000", "60"} <= set(told)
    (note,) = (p for p in drawing.layout.placements if isinstance(p.wish, CalloutWish))
    assert drawing.views[0].box.grown(0.1).has((note.leader[0].x0, note.leader[0].y0))


def test_a_plain_bar_is_not_broken() -> None:
    view = rail(1000.0, [])
    drawing = draw_part(
        PartViews(view), [DimensionWish("face", (0, 0), (1000, 0), "h", "1000", "overall")], FREE, "third"
    )
    assert drawing is not None
    assert not any(s.kind == "break" for s in drawing.views[0].view.strokes)
