"""Hand holds against a bar with half-round ends; their rims by the theorem of Pappus."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def area(long: float, wide: float) -> float:
    """Of a bar with half-round ends."""
    return (long - wide) * wide + math.pi * wide**2 / 4


def rim(long: float, wide: float, radius: float) -> float:
    """Volume a quarter round takes off one rim: the area of the corner less its sector, round its centroid's path.

    The centroid lies (10 - 3 pi) / (12 - 3 pi) radii from the wall (tables of plane areas).
    """
    out = radius * (10 - 3 * math.pi) / (12 - 3 * math.pi)
    return (1 - math.pi / 4) * radius**2 * (2 * (long - wide) + 2 * math.pi * (wide / 2 + out))


def test_hand_hold(shaped):
    part = shaped("{hand hold: {side: top, long: 100, wide: 30, eased: 5}}")
    whole = L * W * T - area(100, 30) * T
    assert part.sharp.Volume() == pytest.approx(whole, rel=1e-9)
    assert part.eased.Volume() == pytest.approx(whole - 2 * rim(100, 30, 5), rel=1e-9)


def test_hand_hold_left_sharp(shaped):
    part = shaped("{hand hold: {side: top, long: 100, wide: 30}}")
    assert part.eased.Volume() == pytest.approx(part.sharp.Volume(), rel=1e-12)


def test_hand_hold_in_a_rounded_part(shaped):
    part = shaped("{hand hold: {side: top, long: 100, wide: 30, eased: 4}}, {round over: {radius: 3}}")
    lost = 2 * rim(100, 30, 4) + 4 * (1 - math.pi / 4) * 9 * L
    assert part.sharp.Volume() - part.eased.Volume() == pytest.approx(lost, rel=1e-7)


@settings(max_examples=8, deadline=None)
@given(long=decimals(60, 200), wide=decimals(15, 50), eased=decimals(0.5, 8))
def test_any_hand_hold(shaped, long, wide, eased):
    part = shaped(f"{{hand hold: {{side: top, long: {long}, wide: {wide}, eased: {eased}}}}}")
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    lost = 2 * rim(long, wide, eased)
    assert part.sharp.Volume() - part.eased.Volume() == pytest.approx(lost, rel=1e-6)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{hand hold: {side: top, long: 100, wide: 77}}", "leaves 1.5 mm of wood"),
        ("{hand hold: {side: top, long: 100, wide: 30, eased: 9.5}}", "leaves 1 mm of wood"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
