"""Notches against the volume of a block."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def notched(shaped, side: str, start: str, at: float, long: float, deep: float):
    return shaped(f"{{notch: {{side: {side}, from: {start}, at: {at!r}, long: {long!r}, deep: {deep!r}}}}}")


def test_notch_in_a_face(shaped):
    part = notched(shaped, "top", "left", 50.0, 40.0, 6.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T - 40 * 6 * W, rel=1e-9)
    walls = sorted({round(v.toTuple()[0], 6) for v in part.sharp.Vertices()})
    assert walls == pytest.approx([-150, -100, -60, 150])


def test_notch_in_an_edge_measured_from_the_right(shaped):
    part = notched(shaped, "back", "right", 50.0, 40.0, 30.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T - 40 * 30 * T, rel=1e-9)
    walls = sorted({round(v.toTuple()[0], 6) for v in part.sharp.Vertices()})
    assert walls == pytest.approx([-150, 60, 100, 150])


def test_notch_at_the_very_end(shaped):
    part = notched(shaped, "bottom", "left", 0.0, 30.0, 10.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T - 30 * 10 * W, rel=1e-9)


def test_sizes_said_are_those_of_the_solid(shaped):
    part = notched(shaped, "top", "right", 50.0, 40.0, 6.0)
    (feature,) = [feature for feature in part.features if feature.kind == "notch"]
    said = {size.name: size.value for size in feature.sizes}
    # set out from the left, where the tape is hooked
    assert said == {
        "notch position": pytest.approx(L - 50 - 40),
        "notch size": pytest.approx(40),
        "notch depth": pytest.approx(6),
    }


@settings(max_examples=10, deadline=None)
@given(
    at=decimals(0, 0.6),
    long=decimals(0.02, 0.39),
    deep=decimals(0.02, 0.98),
    side=st.sampled_from(["top", "bottom", "front", "back"]),
    start=st.sampled_from(["left", "right"]),
)
def test_any_notch(shaped, at, long, deep, side, start):
    whole, across = (T, W) if side in ("top", "bottom") else (W, T)
    part = notched(shaped, side, start, round(at * L, 4), round(long * L, 4), round(deep * whole, 4))
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(L * W * T - long * L * deep * whole * across, rel=1e-9)


@pytest.mark.parametrize(
    "entry",
    [
        "{notch: {side: top, from: left, at: 10, long: 20, deep: 20}}",  # as deep as the part
        "{notch: {side: top, from: left, at: 280, long: 20.5, deep: 5}}",  # past the far end
        "{notch: {side: top, from: left, at: -5, long: 20, deep: 5}}",  # begins before the part does
        "{notch: {side: top, from: left, at: 310, long: 5, deep: 5}}",
    ],
)
def test_notch_outside_the_part(misshaped, entry):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
