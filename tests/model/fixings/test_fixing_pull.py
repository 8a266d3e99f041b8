"""Knobs and pulls: a clear hole for each bolt, where it is said to be."""

import math

import pytest

from model.checks import check_fit
from plans.problems import has_errors

FRONT = """parts:
  front:
    {wood: black walnut, runs: left-right, thick: front-back, length: 400, width: 120, thickness: 18,
     where: {bottom: floor, centred: left-right, front: 0}}
fixings:
  - pull: {on: front, side: front, size: SIZE, MORE, count: 1}
"""


@pytest.mark.parametrize(("size", "bolts"), [("25 mm knob", 1), ("96 mm pull", 2), ("3 in pull", 2)])
def test_bolt_holes(built, size, bolts):
    piece = built(FRONT.replace("SIZE", size).replace("MORE", "lies: left-right"))
    across = 4.5 if "mm" in size else 3 / 16 * 25.4  # M4 (ISO 273 medium) and 8-32
    lost = bolts * math.pi * across**2 / 4 * 18
    assert 400 * 120 * 18 - piece.parts["front"].sharp.Volume() == pytest.approx(lost)
    assert not has_errors(check_fit(piece, as_printed=False))
    (fixing,) = piece.fixings
    assert fixing.last and fixing.points[0] == pytest.approx((0, 0, 60))
    spacings = [s.value for s in piece.parts["front"].features[-1].sizes if s.name.endswith("spacing")]
    assert spacings == pytest.approx([] if bolts == 1 else [96 if "mm" in size else 76.2])


def test_place_from_two_sides(built):
    (fixing,) = built(FRONT.replace("SIZE", "25 mm knob").replace("MORE", "at: {right: 40, top: 30}")).fixings
    assert fixing.points[0] == pytest.approx((160, 0, 90))


def test_too_near_the_edge(outcome):
    piece, problems = outcome(FRONT.replace("SIZE", "25 mm knob").replace("MORE", "at: {top: 3}"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 11)]
