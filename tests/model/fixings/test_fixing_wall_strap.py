"""Wall straps: two pilots in the piece, one leg of the strap in the plane of its back."""

import math

import pytest

from model.checks import check_fit
from plans.library import screw
from plans.problems import has_errors

CASE = """parts:
  top:
    {wood: black cherry, runs: left-right, thick: up-down, length: 600, width: 300, thickness: THICK,
     where: {bottom: 900, centred: left-right, back: 150}}
fixings:
  - wall strap: {on: top, size: SIZE, at: {left: LEFT}, count: 1}
"""


def case(thick=20, size="40 mm", left=100):
    return CASE.replace("THICK", str(thick)).replace("SIZE", size).replace("LEFT", str(left))


def test_one_leg_stands_against_the_wall(built):
    piece = built(case())
    (fixing,) = piece.fixings
    (solid,) = fixing.solids()
    reach = solid.BoundingBox()
    assert solid.isValid() and fixing.last
    assert (reach.ymin, reach.ymax) == pytest.approx((150 - 40, 150), abs=0.01)
    assert (reach.zmin, reach.zmax) == pytest.approx((920, 960), abs=0.01)
    assert (reach.xmin, reach.xmax) == pytest.approx((-200 - 8, -200 + 8), abs=0.01)
    assert solid.Volume() == pytest.approx(16 * (40 * 2 + 38 * 2))
    assert not has_errors(check_fit(piece, as_printed=False))


def test_pilots(built):
    piece = built(case())
    known = screw(8)
    assert known is not None
    lost = 2 * math.pi * known.metric_drills.pilot_hard**2 / 4 * (15 - 2)
    assert 600 * 300 * 20 - piece.parts["top"].sharp.Volume() == pytest.approx(lost)


@pytest.mark.parametrize(("change", "said"), [({"thick": 14}, "at least 2 mm"), ({"left": 2}, "at least 2 mm")])
def test_outside_the_limits(outcome, change, said):
    piece, problems = outcome(case(**change))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 11)]
    assert said in problems[0].message
