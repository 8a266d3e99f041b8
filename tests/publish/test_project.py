import math

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.kernel import tell_smooth_edges
from publish.drawing.strokes import tidy
from publish.drawing.view import Arc, Bezier, Line, Stroke, View, axes_of
from publish.project import view

FRONT, PLAN, ISO = ((0, -1, 0), (1, 0, 0)), ((0, 0, 1), (1, 0, 0)), ((1, -1, 1), (1, 1, 0))


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def drilled() -> cq.Shape:
    return box(40, 40, 20).cut(cq.Solid.makeCylinder(8, 40, cq.Vector(20, 20, -10)))


def lines(seen: View, kind: str) -> list[tuple]:
    return [(s.shape.start, s.shape.end) for s in seen.strokes if s.kind == kind and isinstance(s.shape, Line)]


def length(seen: View, kind: str) -> float:
    return sum(math.dist(a, b) for a, b in lines(seen, kind))


def cubic(points, t: float) -> tuple[float, float]:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))


def test_isometric_box():
    # true isometric: every edge along an axis is drawn sqrt(2/3) of its length (ISO 5456-3); 9 edges seen, 3 hidden
    seen = view([box(30, 20, 10)], *ISO, hidden=True)
    assert len(lines(seen, "visible")) == 9
    assert len(lines(seen, "hidden")) == 3
    assert length(seen, "visible") == pytest.approx(3 * 60 * math.sqrt(2 / 3), abs=1e-4)
    assert length(seen, "hidden") == pytest.approx(60 * math.sqrt(2 / 3), abs=1e-4)


def test_front_view_of_a_box_has_four_lines_and_nothing_hidden():
    seen = view([box(30, 20, 10)], *FRONT, hidden=True)
    assert sorted(lines(seen, "visible")) == [
        ((0, 0), (0, 10)),
        ((0, 0), (30, 0)),
        ((0, 10), (30, 10)),
        ((30, 0), (30, 10)),
    ]
    assert lines(seen, "hidden") == []
    assert seen.box == (0, 0, 30, 10)


def test_through_hole_is_two_hidden_lines_from_the_front():
    seen = view([drilled()], *FRONT, hidden=True)
    assert sorted(lines(seen, "hidden")) == [((12, 0), (12, 20)), ((28, 0), (28, 20))]
    assert all(isinstance(s.shape, Line) for s in seen.strokes)
    assert length(seen, "visible") == pytest.approx(120)


def test_hole_is_one_circle_in_plan():
    seen = view([drilled()], *PLAN, hidden=True)
    arcs = [s for s in seen.strokes if isinstance(s.shape, Arc)]
    assert [s.kind for s in arcs] == ["visible"]
    assert arcs[0].shape == Arc((20, 20), 8, 0, pytest.approx(2 * math.pi))


def test_circle_becomes_an_ellipse_aslant():
    # an inclined circle is an ellipse of semi-axes r and r sin(elevation)
    seen = view([drilled()], (0, -1, 1), (1, 0, 0))
    curves = [s.shape for s in seen.strokes if isinstance(s.shape, Bezier)]
    assert curves
    cx, cy = seen.at((20, 20, 20))
    for curve in curves:
        for t in (0, 0.25, 0.5, 1):
            x, y = cubic(curve.points, t)
            on_top = ((x - cx) / 8) ** 2 + ((y - cy) / (8 * math.sin(math.pi / 4))) ** 2
            cy_low = seen.at((20, 20, 0))[1]
            below = ((x - cx) / 8) ** 2 + ((y - cy_low) / (8 * math.sin(math.pi / 4))) ** 2
            assert min(abs(on_top - 1), abs(below - 1)) < 1e-4


def test_edge_on_disc_is_as_wide_as_it_is():
    seen = view([cq.Solid.makeCylinder(10, 4)], *FRONT, hidden=True)
    assert seen.box == pytest.approx((-10, 0, 10, 4), abs=1e-4)
    assert all(isinstance(s.shape, Line) for s in seen.strokes)
    assert length(seen, "visible") == pytest.approx(48, abs=1e-3)


def test_rounded_arris_is_smooth_not_sharp():
    # cut, not filleted: the kernel marks no tangency by itself
    corner = box(5, 5, 60, (0, 0, -5)).cut(cq.Solid.makeCylinder(5, 60, cq.Vector(5, 5, -5)))
    rounded = tell_smooth_edges(box(40, 30, 50).cut(corner))
    seen = view([rounded], (-1, -1, 0.5), (1, -1, 0), smooth=True)
    assert len(lines(seen, "smooth")) == 2
    assert not any(s.kind == "smooth" for s in view([rounded], (-1, -1, 0.5), (1, -1, 0)).strokes)


def test_flush_parts_keep_the_line_between_them_once():
    seen = view([box(10, 10, 10), box(10, 10, 10, (10, 0, 0))], *FRONT, hidden=True)
    assert length(seen, "visible") == pytest.approx(20 + 20 + 30)
    assert length(seen, "hidden") == 0


def test_a_part_in_front_hides_the_one_behind():
    behind, front = box(40, 10, 10, (0, 50, 0)), box(20, 10, 30, (10, 0, -10))
    seen = view([behind, front], *FRONT, hidden=True)
    assert length(seen, "visible") == pytest.approx(100 + 100 - 2 * 20)
    assert length(seen, "hidden") == pytest.approx(2 * 20)


def test_points_map_into_the_view_as_the_drawing_does():
    seen = view([box(30, 20, 10)], (1, -2, 1.5), (1, 0.5, 0))
    corners = {tuple(round(c, 4) for c in seen.at((x, y, z))) for x in (0, 30) for y in (0, 20) for z in (0, 10)}
    ends = {tuple(round(c, 4) for c in p) for pair in lines(seen, "visible") for p in pair}
    assert len(ends) == 7  # of eight corners one is behind
    assert ends <= corners


def test_two_runs_give_the_same_view():
    shapes = [drilled(), box(10, 10, 60, (50, 0, 0)).rotate(cq.Vector(), cq.Vector(1, 0, 0), 7)]
    assert view(shapes, *ISO, hidden=True, smooth=True) == view(shapes, *ISO, hidden=True, smooth=True)


def test_nothing_to_see():
    assert view([], *FRONT).strokes == ()


@settings(max_examples=50, deadline=None)
@given(*[st.tuples(*[st.floats(-1, 1)] * 3)] * 2)
def test_axes_are_square_and_right_handed(towards, right):
    cross = [towards[(k + 1) % 3] * right[(k + 2) % 3] - towards[(k + 2) % 3] * right[(k + 1) % 3] for k in range(3)]
    if math.hypot(*cross) < 1e-3:
        return
    axes = axes_of(towards, right)
    up = [
        axes.towards[(k + 1) % 3] * axes.right[(k + 2) % 3] - axes.towards[(k + 2) % 3] * axes.right[(k + 1) % 3]
        for k in range(3)
    ]
    assert axes.up == pytest.approx(up)
    assert math.hypot(*axes.up) == pytest.approx(1)
    assert sum(a * b for a, b in zip(axes.right, axes.towards, strict=True)) == pytest.approx(0, abs=1e-9)


def test_parallel_axes_are_refused():
    with pytest.raises(ValueError, match="two directions"):
        axes_of((0, 0, 1), (0, 0, 2))


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(["visible", "hidden"]), st.integers(0, 30), st.integers(1, 20)), min_size=1))
def test_tidy_covers_each_place_once(spans):
    """Against a plain count over unit cells of one slanting line."""
    slope = (0.6, 0.8)
    strokes = [
        Stroke(kind, Line((a * slope[0], a * slope[1]), ((a + n) * slope[0], (a + n) * slope[1])))
        for kind, a, n in spans
    ]
    seen = {c for kind, a, n in spans if kind == "visible" for c in range(a, a + n)}
    hidden = {c for kind, a, n in spans if kind == "hidden" for c in range(a, a + n)} - seen
    done = tidy(strokes)
    for kind, cells in (("visible", seen), ("hidden", hidden)):
        total = sum(math.dist(s.shape.start, s.shape.end) for s in done if s.kind == kind)
        assert total == pytest.approx(len(cells), abs=1e-4)


def test_tidy_joins_arcs_across_angle_zero():
    centre = (1.0, 2.0)
    strokes = [Stroke("visible", Arc(centre, 5, -1, 0.5)), Stroke("visible", Arc(centre, 5, 0.4, 2))]
    strokes.append(Stroke("hidden", Arc(centre, 5, 1, 3)))
    done = tidy(strokes)
    spans = {s.kind: s.shape.end - s.shape.start for s in done}
    assert spans == {"visible": pytest.approx(3), "hidden": pytest.approx(1)}
