"""Lid stays: four pilots, and a plain block that lies inside the chest, close under the lid."""

import math

import pytest

from model.checks import check_fit
from plans.library import screw
from plans.problems import has_errors

CHEST = """parts:
  side:
    {wood: WOOD, runs: front-back, thick: left-right, length: 400, width: 300, thickness: 20,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  lid:
    {wood: WOOD, runs: left-right, thick: up-down, length: 620, width: 420, thickness: 20,
     where: {bottom: side.top + GAP, centred: [left-right, front-back]}}
fixings:
  - lid stay: {of: lid, on: side, size: SIZE, hinge: HINGE, inset: INSET, count: 2}
"""


def chest(gap=0, size="200 mm", hinge="back", inset=40, wood="white ash"):
    text = CHEST.replace("GAP", str(gap)).replace("SIZE", size).replace("HINGE", hinge)
    return text.replace("INSET", str(inset)).replace("WOOD", wood)


@pytest.mark.parametrize("gap", [0, 1])
@pytest.mark.parametrize(("hinge", "low", "high"), [("back", -40, 160), ("front", -160, 40)])
def test_it_lies_inside_under_the_lid(built, gap, hinge, low, high):
    piece = built(chest(gap, hinge=hinge))
    for fixing in piece.fixings:
        (solid,) = fixing.solids()
        assert solid.isValid() and len(solid.Solids()) == 1
        reach = solid.BoundingBox()
        # the inner face lies 280 from the middle, the lid's lower face 300 up; 200 long from 40 off the hinge side
        assert max(abs(reach.xmin), abs(reach.xmax)) < 280 and reach.zmax <= 300 + gap
        assert (reach.ymin, reach.ymax) == pytest.approx((low, high), abs=0.1)
    assert not has_errors(check_fit(piece, as_printed=False))


@pytest.mark.parametrize("wood", ["white ash", "ponderosa pine"])
def test_pilots(built, wood):
    piece = built(chest(wood=wood))
    known = screw(6)
    assert known is not None
    drills = known.metric_drills
    pilot = drills.pilot_soft if "pine" in wood else drills.pilot_hard
    # screws of 15 mm through plates of a quarter of the arms' 10 mm
    each = math.pi * pilot**2 / 4 * (15 - 2.5)
    assert 400 * 300 * 20 - piece.parts["side left"].sharp.Volume() == pytest.approx(2 * each)
    assert 620 * 420 * 20 - piece.parts["lid"].sharp.Volume() == pytest.approx(4 * each)


def test_longer_than_the_side(outcome):
    piece, problems = outcome(chest(inset=201))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert "leaves 199 mm" in problems[0].message
