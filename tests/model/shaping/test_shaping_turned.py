"""Turned parts against the volumes of cones cut off flat."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0

SQUARE = (400.0, 45.0, 45.0)


def cones(stations: list[tuple[float, float]]) -> float:
    """Volume between places (along, diameter): a row of cones cut off flat."""
    return sum(math.pi * (b - a) / 12 * (d**2 + d * e + e**2) for (a, d), (b, e) in pairwise(stations))


def turned(shaped, stations: list[tuple[float, float]], start: str = "left", size=SQUARE):
    places = ", ".join(f"{{at: {at}, diameter: {diameter}}}" for at, diameter in stations)
    return shaped(f"{{turned: {{from: {start}, diameters: [{places}]}}}}", size=size)


def test_peg_of_one_diameter(shaped):
    part = shaped("{turned: {diameter: 20}}")
    assert part.sharp.Volume() == pytest.approx(math.pi * 100 * L, rel=1e-9)
    assert part.width == pytest.approx((-10, 10), abs=1e-6)


def test_leg_with_a_square_head(shaped):
    stations = [(90.0, 45.0), (100.0, 36.0), (130.0, 42.0), (400.0, 25.0)]
    part = turned(shaped, stations)
    assert part.sharp.Volume() == pytest.approx(45**2 * 90 + cones(stations), rel=1e-9)
    (feature,) = [feature for feature in part.features if feature.kind == "turned"]
    said = [(size.name, size.value) for size in feature.sizes]
    assert said[:2] == [("diameter", pytest.approx(45)), ("turned position", pytest.approx(90))]
    assert said[-1] == ("diameter", pytest.approx(25))


def test_shoulder_of_a_knob(shaped):
    stations = [(0.0, 20.0), (6.0, 30.0), (14.0, 30.0), (14.0, 12.0), (40.0, 12.0)]
    part = turned(shaped, stations, size=(40.0, 30.0, 30.0))
    assert part.sharp.Volume() == pytest.approx(cones(stations), rel=1e-9)


def test_measured_from_the_right(shaped):
    part = turned(shaped, [(0.0, 20.0), (400.0, 40.0)], start="right")
    ends = {round(face.Center().x): face.Area() for face in part.sharp.Faces() if face.geomType() == "PLANE"}
    assert ends == {-200: pytest.approx(math.pi * 400), 200: pytest.approx(math.pi * 100)}


@settings(max_examples=8, deadline=None)
@given(diameters=st.lists(st.integers(10, 90).map(lambda n: n / 2), min_size=3, max_size=5))
def test_any_turning(shaped, diameters):
    """Diameters alike or half a millimetre apart: the kernel's volume of a cone of some hundredths is 0.03 % off."""
    stations = [(400.0 * i / (len(diameters) - 1), diameter) for i, diameter in enumerate(diameters)]
    part = turned(shaped, [(round(at, 3), diameter) for at, diameter in stations])
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(cones(stations), rel=1e-5)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{turned: {from: left, diameters: [{at: 90, diameter: 10}, {at: 80, diameter: 10}]}}", "follow each other"),
        ("{turned: {from: left, diameters: [{at: 0, diameter: 10}, {at: 310, diameter: 10}]}}", "past the end"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
