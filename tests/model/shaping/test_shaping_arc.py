"""Arcs against the area of a circle's segment (plain geometry)."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def segment(chord: float, rise: float) -> float:
    """Area between a chord and its arc."""
    radius = (chord**2 / 4 + rise**2) / (2 * rise)
    return radius**2 * math.acos((radius - rise) / radius) - (radius - rise) * chord / 2


def test_hollow_edge(shaped):
    part = shaped("{arc: {edge: front, bend: hollow, rise: 20}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - segment(L, 20) * T, rel=1e-9)
    (feature,) = [feature for feature in part.features if feature.kind == "arc"]
    # 150^2 + 20^2 over 40
    assert feature.operation.settings["radius"] == pytest.approx(572.5)
    assert [(size.name, size.value) for size in feature.sizes] == [("rise", pytest.approx(20))]


def test_flat_ends(shaped):
    part = shaped("{arc: {edge: front, bend: hollow, rise: 20, flat: 30}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - segment(L - 60, 20) * T, rel=1e-9)


def test_crown_keeps_the_middle(shaped):
    part = shaped("{arc: {edge: back, bend: crown, rise: 20}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - (L * 20 - segment(L, 20)) * T, rel=1e-9)
    assert part.width == pytest.approx((-W / 2, W / 2), abs=1e-6)


def test_rounded_end(shaped):
    part = shaped("{arc: {edge: left, bend: crown, rise: 20}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - (W * 20 - segment(W, 20)) * T, rel=1e-9)
    assert part.length == pytest.approx((-L / 2, L / 2), abs=1e-6)


def test_places_are_measured_from_the_edge_that_stays_straight(shaped):
    part = shaped("{arc: {edge: front, bend: hollow, rise: 9}}, {hole: {side: top, diameter: 6, at: {front: 30}}}")
    (feature,) = [feature for feature in part.features if feature.kind == "hole"]
    (across,) = [size for size in feature.sizes if size.along == "front-back"]
    assert across.value == pytest.approx(W - 30) and across.start[1] == pytest.approx(W / 2)


@settings(max_examples=10, deadline=None)
@given(rise=decimals(0.5, 70), bend=st.sampled_from(["hollow", "crown"]), edge=st.sampled_from(["front", "back"]))
def test_any_arc(shaped, rise, bend, edge):
    part = shaped(f"{{arc: {{edge: {edge}, bend: {bend}, rise: {rise}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    lost = segment(L, rise) if bend == "hollow" else L * rise - segment(L, rise)
    assert part.sharp.Volume() == pytest.approx(L * W * T - lost * T, rel=1e-8)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{arc: {edge: front, bend: hollow, rise: 79}}", "leaves 1 mm of wood"),
        ("{arc: {edge: left, bend: crown, rise: 41}}", "can rise half of that at most"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
