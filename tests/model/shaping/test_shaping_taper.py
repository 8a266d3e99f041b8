"""Tapers against the volume of a frustum and the wedges of a prism (any book of mensuration)."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


def frustum(height: float, lower: float, upper: float) -> float:
    """Of a pyramid between two parallel faces of these areas: h/3 (A + B + sqrt(A B))."""
    return height / 3 * (lower + upper + math.sqrt(lower * upper))


def leg(shaped, sides: str, after: float, to: float):
    taper = f"{{taper: {{sides: {sides}, from: top, after: {after!r}, to: {to!r}}}}}"
    return shaped(taper, size=(400.0, 40.0, 40.0), runs="up-down", thick="front-back")


@pytest.mark.parametrize("sides", ["[left, right, front, back]", "[right, back]", "[left, front]"])
def test_square_leg_is_a_frustum_below_the_block(shaped, sides):
    # tapered on two sides or on all four, every section is a square that shrinks evenly
    part = leg(shaped, sides, 100.0, 25.0)
    assert part.sharp.Volume() == pytest.approx(40 * 40 * 100 + frustum(300, 40 * 40, 25 * 25), rel=1e-9)


def test_one_side_takes_a_wedge(shaped):
    part = leg(shaped, "right", 100.0, 25.0)
    assert part.sharp.Volume() == pytest.approx(40 * 40 * 400 - 300 * 15 / 2 * 40, rel=1e-9)
    # the left side stays where it was, the right comes in at the foot only
    assert (part.width[0], part.width[1]) == pytest.approx((-20, 20))
    foot = [v.toTuple()[0] for v in part.sharp.Vertices() if v.toTuple()[2] < -199]
    assert (min(foot), max(foot)) == pytest.approx((-20, 5))


def test_two_opposite_sides_give_half_each(shaped):
    part = leg(shaped, "[left, right]", 0.0, 20.0)
    foot = [v.toTuple()[0] for v in part.sharp.Vertices() if v.toTuple()[2] < -199]
    assert (min(foot), max(foot)) == pytest.approx((-10, 10))
    assert part.sharp.Volume() == pytest.approx((40 + 20) / 2 * 400 * 40, rel=1e-9)


def test_sizes_said_are_those_of_the_solid(shaped):
    part = leg(shaped, "[right, back]", 100.0, 25.0)
    (taper,) = [feature for feature in part.features if feature.kind == "taper"]
    said = {(size.name, size.along): size.value for size in taper.sizes}
    assert said == {
        ("foot", "left-right"): pytest.approx(25),
        ("foot", "front-back"): pytest.approx(25),
        ("taper begins", "up-down"): pytest.approx(100),
    }


@settings(max_examples=12, deadline=None)
@given(
    length=decimals(100, 900),
    width=decimals(20, 90),
    thickness=decimals(15, 60),
    share=decimals(0.2, 0.95),
    after=decimals(0, 0.9),
    start=st.sampled_from(["left", "right"]),
    sides=st.sampled_from(["front", "back", "[front, back]"]),
)
def test_any_flat_taper_is_a_trapezium(shaped, length, width, thickness, share, after, start, sides):
    to, begins = round(width * share, 4), round(length * after, 4)
    taper = f"{{taper: {{sides: {sides}, from: {start}, after: {begins!r}, to: {to!r}}}}}"
    part = shaped(taper, size=(length, width, thickness))
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    wanted = (begins * width + (length - begins) * (width + to) / 2) * thickness
    assert part.sharp.Volume() == pytest.approx(wanted, rel=1e-9)


def test_taper_that_begins_past_the_end_of_a_cut_part(outcome):
    # the reader knows the length of a part only where it is stated
    piece, problems = outcome(
        """parts:
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 300, thickness: 20,
     where: {top: 400, centred: [left-right, front-back]}}
  leg:
    wood: white oak
    runs: up-down
    thick: front-back
    width: 40
    thickness: 40
    where: {centred: [left-right, front-back]}
    cut to: {top: top, bottom: floor}
    shaping:
      - taper: {sides: right, from: top, after: 390, to: 25}
"""
    )
    assert piece is None
    assert [(p.code, p.place.line, p.parts) for p in problems] == [("shaping-fails", 19, ("leg",))]
