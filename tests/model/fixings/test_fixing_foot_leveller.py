"""Foot levellers: a blind hole under each leg, and what is left round it."""

import math

import pytest

from model.checks import check_fit
from plans.problems import has_errors

LEGS = """parts:
  leg:
    {wood: red maple, runs: up-down, thick: front-back, length: 400, width: 40, thickness: 40,
     where: {bottom: 10, left: -200, front: -200},
     shaping: [taper: {sides: [right, back], from: top, after: 100, to: FOOT}],
     mirror: [left-right, front-back]}
fixings:
  - foot leveller: {on: leg, size: M6, count: 4}
"""


def test_hole_in_the_middle_of_the_foot(built):
    piece = built(LEGS.replace("FOOT", "24"))
    for fixing in piece.fixings:
        x, y, z = fixing.points[0]
        # the foot's square of 24 mm keeps the outer corner of the leg
        assert (abs(x), abs(y), z) == pytest.approx((200 - 12, 200 - 12, 10))
        (solid,) = fixing.solids()
        assert solid.BoundingBox().zmin == pytest.approx(0, abs=0.01)  # the foot is 10 mm high
    whole = 400 * 40 * 40
    taper = 300 * (40 * 40 + 24 * 24 + math.sqrt(40 * 40 * 24 * 24)) / 3 + 100 * 40 * 40  # a frustum (closed formula)
    hole = math.pi * 4.5**2 * 32
    assert whole - piece.parts["leg front left"].sharp.Volume() == pytest.approx(whole - taper + hole, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_foot_tapered_too_thin(outcome):
    piece, problems = outcome(LEGS.replace("FOOT", "12"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 13)]
    assert "leaves 1.5 mm" in problems[0].message and "at least 2 mm" in problems[0].message
