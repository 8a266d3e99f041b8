"""Relieved ends against triangles and trapezia."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def test_tapered_ends(shaped):
    part = shaped("{relieved ends: {edge: front, rise: 20, long: 80}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 2 * 20 * 80 / 2 * T, rel=1e-9)
    assert {round(v.Y + W / 2, 6) for v in part.sharp.Vertices() if abs(v.X) > 149} == {20, 80}


def test_one_cranked_end(shaped):
    part = shaped("{relieved ends: {edge: front, rise: 20, long: 80, level: 30, ends: left}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 20 * (80 + 30) / 2 * T, rel=1e-9)
    (feature,) = [feature for feature in part.features if feature.kind == "relieved ends"]
    assert [(size.name, size.value) for size in feature.sizes] == [
        ("end relief", pytest.approx(20)),
        ("relief", pytest.approx(80)),
        ("level end", pytest.approx(30)),
    ]
    assert {round(v.X, 6) for v in part.sharp.Vertices() if v.Y < 25 - W / 2} == {-150, -120, -70, 150}


@settings(max_examples=10, deadline=None)
@given(rise=decimals(0.5, 75), long=decimals(10, 150), share=decimals(0, 0.9))
def test_any_relief(shaped, rise, long, share):
    level = round(share * long, 4)
    part = shaped(f"{{relieved ends: {{edge: back, rise: {rise}, long: {long}, level: {level}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(L * W * T - rise * (long + level) * T, rel=1e-8)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{relieved ends: {edge: front, rise: 79, long: 50}}", "leaves 1 mm of wood"),
        ("{relieved ends: {edge: front, rise: 20, long: 151}}", "longer than the part"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
