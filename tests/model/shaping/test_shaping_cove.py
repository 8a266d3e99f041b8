"""Coves against a quarter of a circle an arris; where two meet, by Cavalieri's principle."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def coved(shaped, arrises: str, radius: float):
    return shaped(f"{{cove: {{arrises: {arrises}, radius: {radius!r}}}}}")


def test_one_cove_is_in_both_bodies(shaped):
    part = coved(shaped, "[top front]", 8.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * 16 * L, rel=1e-9)
    assert part.eased.Volume() == pytest.approx(part.sharp.Volume(), rel=1e-12)


def test_all_round_a_top(shaped):
    part = coved(shaped, "[top front, top back, top left, top right]", 8.0)
    # at a corner both coves take the same square of side sqrt(r2 - z2) at the depth z: 2/3 r3 in all
    lost = math.pi * 16 * 2 * (L + W) - 4 * 2 / 3 * 8**3
    assert part.sharp.Volume() == pytest.approx(L * W * T - lost, rel=1e-9)


def test_eased_afterwards(shaped):
    part = shaped("{cove: {arrises: [top front], radius: 8}}, {round over: {arrises: [bottom front], radius: 3}}")
    assert part.sharp.Volume() - part.eased.Volume() == pytest.approx((1 - math.pi / 4) * 9 * L, rel=1e-6)


@settings(max_examples=10, deadline=None)
@given(radius=decimals(0.5, 9.5), arris=st.sampled_from(["top front", "bottom back", "top left", "right bottom"]))
def test_any_cove(shaped, radius, arris):
    part = coved(shaped, f"[{arris}]", radius)
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    run = L if "front" in arris or "back" in arris else W
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * radius**2 / 4 * run, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{bevel: {edge: front, towards: top, angle: 15}}, {cove: {arrises: [top front], radius: 4}}", "not square"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
