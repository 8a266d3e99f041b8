"""Fair curves: through their points, straight through points in line, near the circle through points of one."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0

LINE = "[{along: 0, in: 40}, {along: 100, in: 30}, {along: 220, in: 18}, {along: 300, in: 10}]"


def curved(shaped, points: str, edge: str = "front", start: str = "left"):
    return shaped(f"{{curve: {{edge: {edge}, from: {start}, through: {points}}}}}")


def test_points_in_line_give_a_straight_cut(shaped):
    part = curved(shaped, LINE)
    assert part.sharp.Volume() == pytest.approx(L * W * T - (40 + 10) / 2 * L * T, rel=1e-9)


def test_measured_from_the_other_end(shaped):
    part = curved(shaped, LINE, "back", "right")
    assert part.sharp.Volume() == pytest.approx(L * W * T - (40 + 10) / 2 * L * T, rel=1e-9)
    corners = [(v.X, v.Y) for v in part.sharp.Vertices()]
    assert max(y for x, y in corners if x > 0) == pytest.approx(W / 2 - 40)


def test_points_of_a_circle_give_nearly_its_segment(shaped):
    rise = 20.0
    radius = (L**2 / 4 + rise**2) / (2 * rise)
    places = [(x, math.sqrt(radius**2 - (x - L / 2) ** 2) - (radius - rise)) for x in range(0, 301, 50)]
    points = ", ".join(f"{{along: {x}, in: {abs(round(y, 6))}}}" for x, y in places)
    part = curved(shaped, f"[{points}]")
    segment = radius**2 * math.acos((radius - rise) / radius) - (radius - rise) * L / 2
    assert L * W * T - part.sharp.Volume() == pytest.approx(segment * T, rel=2e-3)


def test_passes_through_its_points(shaped):
    part = curved(shaped, "[{along: 0, in: 40}, {along: 120, in: 12}, {along: 190, in: 30}, {along: 300, in: 5}]")
    (edge, *_) = [edge for edge in part.sharp.Edges() if edge.geomType() == "BSPLINE"]
    for along, inward in ((120, 12), (190, 30)):
        found = [edge.positionAt(i / 2000).toTuple()[:2] for i in range(2001)]
        wanted = (along - L / 2, inward - W / 2)
        assert min(math.dist(point, wanted) for point in found) < 0.1
    (feature,) = [feature for feature in part.features if feature.kind == "curve"]
    assert [size.value for size in feature.sizes] == pytest.approx([120, 190, 40, 12, 30, 5])


@settings(max_examples=8, deadline=None)
@given(depths=st.lists(decimals(10, 40), min_size=4, max_size=4))
def test_any_curve(shaped, depths):
    points = ", ".join(f"{{along: {100 * i}, in: {depth}}}" for i, depth in enumerate(depths))
    part = curved(shaped, f"[{points}]")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    # a fair curve through points no more than 30 apart swings out by less than that
    assert (min(depths) - 15) * L * T <= L * W * T - part.sharp.Volume() <= (max(depths) + 15) * L * T


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ("[{along: 0, in: 0}, {along: 150, in: 79}, {along: 300, in: 0}]", "leaves 1 mm of wood"),
        ("[{along: 0, in: 9}, {along: 150, in: 9}, {along: 301, in: 0}]", "past the end"),
        (
            "[{along: 0, in: 20}, {along: 50, in: 0}, {along: 150, in: 0}, {along: 300, in: 20}]",
            "swings out of the part",
        ),
    ],
)
def test_outside_its_limits(misshaped, points, said):
    (problem,) = misshaped(f"{{curve: {{edge: front, from: left, through: {points}}}}}")
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
