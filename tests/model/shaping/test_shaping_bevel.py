"""Bevelled edges against the volume of a wedge."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def bevelled(shaped, edge: str, towards: str, angle: float):
    return shaped(f"{{bevel: {{edge: {edge}, towards: {towards}, angle: {angle!r}}}}}")


def test_edge_falls_towards_the_top(shaped):
    part = bevelled(shaped, "front", "top", 15.0)
    tan = math.tan(math.radians(15))
    assert part.sharp.Volume() == pytest.approx((W * T - T * T * tan / 2) * L, rel=1e-9)
    # the far side, the bottom, keeps the full width
    corners = np.array([v.toTuple() for v in part.sharp.Vertices()])
    assert corners[corners[:, 2] < 0][:, 1].min() == pytest.approx(-W / 2)
    assert corners[corners[:, 2] > 0][:, 1].min() == pytest.approx(-W / 2 + T * tan)


def test_face_may_fall_towards_an_edge(shaped):
    part = bevelled(shaped, "top", "back", 5.0)
    tan = math.tan(math.radians(5))
    assert part.sharp.Volume() == pytest.approx((W * T - W * W * tan / 2) * L, rel=1e-9)


def test_angle_of_nothing_leaves_the_edge(shaped):
    part = bevelled(shaped, "front", "top", 0.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T)
    assert all(feature.kind != "bevel" for feature in part.features)


@settings(max_examples=10, deadline=None)
@given(
    angle=decimals(0.1, 60),
    edge=st.sampled_from(["front", "back"]),
    towards=st.sampled_from(["top", "bottom"]),
)
def test_any_bevel(shaped, angle, edge, towards):
    part = bevelled(shaped, edge, towards, angle)
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    lost = T * T * math.tan(math.radians(angle)) / 2 * L
    assert part.sharp.Volume() == pytest.approx(L * W * T - lost, rel=1e-9)


def test_bevel_that_would_add_wood(misshaped):
    (problem,) = misshaped("{bevel: {edge: front, towards: top, angle: -5}}")
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))


def test_bevel_right_through(misshaped):
    # 84 degrees on 20 mm is more than the 80 mm the part is wide, on both edges
    (problem,) = misshaped(
        "{bevel: {edge: front, towards: top, angle: 84}}, {bevel: {edge: back, towards: bottom, angle: 84}}",
    )
    assert (problem.code, problem.place.line) == ("shaping-fails", 15)
