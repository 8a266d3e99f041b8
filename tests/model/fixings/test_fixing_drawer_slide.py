"""Drawer slides: as thick as the gap (1/2 in: common practice), where the two face each other."""

import pytest

from model.checks import check_fit
from model.takeoff import hardware
from plans.problems import has_errors

CASE = """parts:
  case side:
    {wood: yellow birch, runs: front-back, thick: left-right, length: 500, width: 200, thickness: 18,
     where: {bottom: floor, left: -250, centred: front-back}, mirror: left-right}
  drawer side:
    {wood: yellow birch, runs: front-back, thick: left-right, length: 450, width: 100, thickness: 12,
     where: {bottom: 50, left: case side.right + GAP, front: case side.front + 20}, mirror: left-right}
fixings:
  - drawer slide: {of: drawer side, on: case side, size: SIZE, set back: 10, count: 2}
"""


def case(gap=12.7, size="400 mm"):
    return CASE.replace("GAP", str(gap)).replace("SIZE", size)


def test_they_fill_the_gap(built):
    piece = built(case())
    assert not has_errors(check_fit(piece, as_printed=False)) and [row.count for row in hardware(piece)] == [2]
    for fixing in piece.fixings:
        (solid,) = fixing.solids()
        reach = solid.BoundingBox()
        assert solid.Volume() == pytest.approx(400 * 45 * 12.7)
        assert (reach.ymin, reach.ymax) == pytest.approx((-250 + 20 + 10, -250 + 30 + 400), abs=0.01)
        assert (reach.zmin, reach.zmax) == pytest.approx((100 - 22.5, 100 + 22.5), abs=0.01)
        assert min(abs(reach.xmin), abs(reach.xmax)) == pytest.approx(250 - 18 - 12.7, abs=0.01)


@pytest.mark.parametrize(("change", "said"), [({"gap": 16}, "16 mm apart"), ({"size": "450 mm"}, "450 mm for it")])
def test_outside_the_limits(outcome, change, said):
    piece, problems = outcome(case(**change))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert said in problems[0].message
