"""Thumbnails against a rectangle less a quarter circle an edge."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def section(radius: float, step: float) -> float:
    """Area of what the cutter takes off."""
    return radius * (radius + step) - math.pi * radius**2 / 4


def test_along_the_front(shaped):
    part = shaped("{thumbnail: {face: top, edges: front, radius: 8, step: 2}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - section(8, 2) * L, rel=1e-9)
    # the step stands a radius in from the edge, and goes down from the face
    step = [v.toTuple() for v in part.sharp.Vertices() if abs(v.Y - (8 - W / 2)) < 1e-6]
    assert {round(z, 6) for _, _, z in step} == {T / 2, T / 2 - 2}


def test_round_three_edges(shaped):
    part = shaped("{thumbnail: {face: top, edges: [front, left, right], radius: 8, step: 2}}")
    # where two meet, both take squares: the step's, then of side r - sqrt(r2 - z2) at z below the top of the round,
    # turned round to run from the root: 8 - sqrt(64 - (8 - z)2) squared, from 0 to r, is r3 (5/3 - pi/2)
    both = 8**2 * 2 + 8**3 * (5 / 3 - math.pi / 2)
    lost = section(8, 2) * (L + 2 * W) - 2 * both
    assert part.sharp.Volume() == pytest.approx(L * W * T - lost, rel=1e-9)


@settings(max_examples=10, deadline=None)
@given(radius=decimals(1, 14), step=decimals(0.2, 5), edge=st.sampled_from(["front", "back", "left", "right"]))
def test_any_thumbnail(shaped, radius, step, edge):
    part = shaped(f"{{thumbnail: {{face: bottom, edges: {edge}, radius: {radius}, step: {step}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    run = L if edge in ("front", "back") else W
    assert part.sharp.Volume() == pytest.approx(L * W * T - section(radius, step) * run, rel=1e-9)


def test_its_words_follow_a_mirrored_part(built):
    piece = built("""parts:
  board:
    {wood: white oak, runs: front-back, thick: up-down, length: 300, width: 80, thickness: 20,
     where: {bottom: floor, left: 10, centred: front-back}, mirror: left-right,
     shaping: [thumbnail: {face: top, edges: left, radius: 8, step: 2}]}
""")
    said = {part.features[-1].callouts[0].values["arrises"] for part in piece.parts.values()}
    assert said == {"top left", "top right"}


def test_no_such_arris(misshaped):
    (problem,) = misshaped(
        "{bevel: {edge: front, towards: top, angle: 60}}, {thumbnail: {face: top, edges: front, radius: 4}}"
    )
    assert (problem.code, problem.place.line) == ("shaping-fails", 15)
    assert "no arris" in problem.message
