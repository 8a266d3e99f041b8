"""Sloped ends against the volumes of wedges and the angles between planes (plain geometry)."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0
TAN = math.tan(math.radians(10))


def cut(shaped, end: str, slopes: str):
    return shaped(f"{{end cut: {{end: {end}, slopes: {slopes}}}}}")


def end_normal(part, sign: float) -> np.ndarray:
    """Outward normal of the largest face that looks along the part."""
    faces = [(f.Area(), np.array(f.normalAt().toTuple())) for f in part.sharp.Faces()]
    return max((f for f in faces if f[1][0] * sign > 0.5), key=lambda found: found[0])[1]


def test_mitre_takes_a_wedge_across_the_width(shaped):
    part = cut(shaped, "right", "{front: 10}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - W * W * TAN / 2 * T, rel=1e-9)
    # the long point keeps the stated length
    assert part.length == pytest.approx((-L / 2, L / 2))
    short = [v.toTuple()[0] for v in part.sharp.Vertices() if v.toTuple()[1] < 0]
    assert max(short) == pytest.approx(L / 2 - W * TAN)


def test_bevelled_end_takes_a_wedge_through_the_thickness(shaped):
    part = cut(shaped, "left", "{top: 10}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - T * T * TAN / 2 * W, rel=1e-9)


def test_compound_end_falls_both_ways(shaped):
    part = cut(shaped, "right", "{front: 10, bottom: 30}")
    tan30 = math.tan(math.radians(30))
    # mean height lost under the plane is that at the middle of the section
    assert part.sharp.Volume() == pytest.approx(L * W * T - (W * TAN + T * tan30) / 2 * W * T, rel=1e-9)
    n = end_normal(part, 1)
    assert np.degrees(np.arctan2(-n[1], n[0])) == pytest.approx(10)
    assert np.degrees(np.arctan2(-n[2], n[0])) == pytest.approx(30)


def test_angles_said_are_those_between_the_planes(shaped):
    part = cut(shaped, "right", "{front: 10, bottom: 30}")
    (feature,) = [feature for feature in part.features if feature.kind == "end cut"]
    values = feature.callouts[0].values
    n = end_normal(part, 1)
    assert values["mitre"] == pytest.approx(10) and values["mitre towards"] == "front"
    assert values["slope"] == pytest.approx(30) and values["slope towards"] == "bottom"
    # the blade of a saw that stands square to the face is in a plane through the thickness:
    # it tilts by what the cut is off that plane
    assert values["tilt"] == pytest.approx(90 - math.degrees(math.acos(abs(n[2]))))


def test_no_slope_is_no_cut(shaped):
    part = cut(shaped, "right", "{front: 0}")
    assert part.sharp.Volume() == pytest.approx(L * W * T)
    assert all(callout.what != "sloped end" for feature in part.features for callout in feature.callouts)


@settings(max_examples=12, deadline=None)
@given(
    front=decimals(0.5, 45),
    top=decimals(0.5, 45),
    end=st.sampled_from(["left", "right"]),
)
def test_any_compound_end(shaped, front, top, end):
    part = cut(shaped, end, f"{{front: {front!r}, top: {top!r}}}")
    a, b = math.tan(math.radians(front)), math.tan(math.radians(top))
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(L * W * T - (W * a + T * b) / 2 * W * T, rel=1e-9)
    n = end_normal(part, 1 if end == "right" else -1)
    assert abs(n[0]) == pytest.approx(1 / math.sqrt(1 + a * a + b * b))


def test_slope_that_would_add_wood(misshaped):
    (problem,) = misshaped("{end cut: {end: right, slopes: {front: -10}}}")
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))


def test_slope_that_leaves_nothing(misshaped):
    (problem,) = misshaped(
        "{end cut: {end: right, slopes: {front: 89.9}}}, {end cut: {end: left, slopes: {back: 89.9}}}"
    )
    assert (problem.code, problem.place.line) == ("shaping-fails", 15)
