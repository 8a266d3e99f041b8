"""Nails: nothing is bored, and none comes out."""

import pytest

from model.checks import check_fit
from plans.problems import has_errors

PAIR = """parts:
  base:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 100, thickness: 18,
     where: {bottom: floor, centred: [left-right, front-back]}}
  strip:
    {wood: white oak, runs: left-right, thick: up-down, length: 120, width: 20, thickness: 6,
     where: {bottom: base.top, centred: [left-right, front-back]}}
fixings:
  - nail: {through: strip, into: base, size: 18 gauge, long: LONG, per place: 4, count: 4}
"""


def test_nothing_is_bored(built):
    piece = built(PAIR.replace("LONG", "20"))
    assert piece.parts["base"].sharp.Volume() == pytest.approx(300 * 100 * 18)
    assert piece.parts["strip"].sharp.Volume() == pytest.approx(120 * 20 * 6)
    assert not has_errors(check_fit(piece, as_printed=False))
    (fixing,) = piece.fixings
    for solid in fixing.solids():
        assert solid.BoundingBox().zmin == pytest.approx(24 - 20, abs=0.01)
        # steel wire of 18 gauge is 0.0475 in thick (from memory)
        assert solid.BoundingBox().xlen == pytest.approx(0.0475 * 25.4, abs=0.01)


@pytest.mark.parametrize(("long", "said"), [("5", "ends inside"), ("24.5", "comes out")])
def test_too_short_and_too_long(outcome, long, said):
    piece, problems = outcome(PAIR.replace("LONG", long))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert said in problems[0].message
