"""Round-overs against (1 - pi/4) r^2 an arris, and on all arrises Steiner's formula for a box swept by a ball."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0
CORNER = 1 - math.pi / 4  # of r^2: a square less a quarter of a circle


def rounded(shaped, arrises: str, radius: float, **more):
    return shaped(f"{{round over: {{arrises: {arrises}, radius: {radius!r}}}}}", **more)


def steiner(a: float, b: float, c: float, r: float) -> float:
    """Volume of a box of these outer sizes with every arris and corner rounded: a smaller box swept by a ball."""
    a, b, c = a - 2 * r, b - 2 * r, c - 2 * r
    return a * b * c + 2 * r * (a * b + b * c + c * a) + math.pi * r * r * (a + b + c) + 4 / 3 * math.pi * r**3


def test_long_arrises(shaped):
    part = rounded(shaped, "long", 3.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T)  # drawings are made of the sharp body
    assert part.eased.Volume() == pytest.approx(L * W * T - 4 * CORNER * 9 * L, rel=1e-9)


def test_named_arrises(shaped):
    part = rounded(shaped, "[top front, bottom back]", 5.0)
    assert part.eased.Volume() == pytest.approx(L * W * T - 2 * CORNER * 25 * L, rel=1e-9)


def test_all_arrises(shaped):
    part = rounded(shaped, "all", 3.0)
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    assert part.eased.Volume() == pytest.approx(steiner(L, W, T, 3.0), rel=1e-6)


def test_arrises_of_a_tapered_leg(shaped):
    entries = "{taper: {sides: [right, back], from: top, after: 100, to: 25}}, {round over: {arrises: long, radius: 3}}"
    part = shaped(entries, size=(400.0, 40.0, 40.0), runs="up-down", thick="front-back")
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    lost = part.sharp.Volume() - part.eased.Volume()
    # the arrises lean by no more than 3 degrees: within a hundredth of four straight ones
    assert lost == pytest.approx(4 * CORNER * 9 * 400, rel=0.01)


@settings(max_examples=15, deadline=None)
@given(
    length=decimals(60, 900),
    width=decimals(15, 200),
    thickness=decimals(10, 40),
    share=decimals(0.02, 0.47),
    arrises=st.sampled_from(["long", "all", "ends", "[top front]", "[top left, top right]"]),
)
def test_any_round_over_is_sound(shaped, length, width, thickness, share, arrises):
    radius = round(share * min(width, thickness), 3)
    part = rounded(shaped, arrises, radius, size=(length, width, thickness))
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    whole = length * width * thickness
    if arrises == "all":
        wanted = steiner(length, width, thickness, radius)
        assert part.eased.Volume() == pytest.approx(wanted, rel=1e-6)
        return
    straight = {"long": 4 * length, "ends": 4 * (width + thickness), "[top front]": length}.get(arrises, 2 * width)
    lost = CORNER * radius**2 * straight
    # where arrises meet at the corners of an end, they take some of the same wood
    shared = 8 * radius**3 if arrises == "ends" else 1e-6 * whole
    assert lost - shared <= whole - part.eased.Volume() <= lost + 1e-6 * whole


def test_two_round_overs_of_different_radius(shaped):
    entries = "{round over: {arrises: [top front], radius: 2}}, {round over: {arrises: [bottom back], radius: 6}}"
    part = shaped(entries)
    assert part.eased.Volume() == pytest.approx(L * W * T - CORNER * (4 + 36) * L, rel=1e-9)


def test_arris_that_is_not_there(misshaped):
    # the bevel takes the whole front: no arris of the part is called so
    entries = "{bevel: {edge: front, towards: top, angle: 60}}, {round over: {arrises: [top front], radius: 2}}"
    (problem,) = misshaped(entries)
    assert (problem.code, problem.place.line) == ("shaping-fails", 15)
