"""Butt hinges: a box let into each part, together as deep as the closed hinge is thick."""

import pytest

from model.checks import check_fit
from plans.library import bought

CHEST = """parts:
  back:
    {wood: white ash, runs: left-right, thick: front-back, length: 800, width: 300, thickness: 22,
     where: {bottom: floor, centred: left-right, front: 200}}
  lid:
    {wood: white ash, runs: left-right, thick: up-down, length: 800, width: 400, thickness: 20,
     where: {bottom: back.top + GAP, centred: left-right, back: back.back}}
fixings:
  - butt hinge: {of: lid, on: back, size: SIZE, knuckle: back, inset: 100, count: 2}
"""


def chest(gap: float = 0, size: str = "50 mm"):
    return CHEST.replace("GAP", str(gap)).replace("SIZE", size)


@pytest.mark.parametrize("gap", [0, 1])
@pytest.mark.parametrize("size", ["50 mm", "2 in", "65 mm"])
def test_both_leaves_are_let_in(built, gap, size):
    known = bought("butt_hinges", size)
    assert known is not None
    piece = built(chest(gap, size))
    slack = 0.05
    box = (known["long"] + 2 * slack) * (known["leaf"] + slack)
    each = 2 * box * (known["thick"] + slack - gap / 2)
    assert 800 * 300 * 22 - piece.parts["back"].sharp.Volume() == pytest.approx(each, rel=1e-6)
    assert 800 * 400 * 20 - piece.parts["lid"].sharp.Volume() == pytest.approx(each, rel=1e-6)
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}


def test_pins_stand_outside_and_in_from_the_ends(built):
    (fixing,) = built(chest()).fixings
    for solid, x in zip(fixing.solids(), (-275, 275), strict=True):
        # 800 long, hinges of 50 mm 100 mm in from the ends: their middles 275 from the middle
        assert solid.isValid() and solid.Center().x == pytest.approx(x, abs=1e-6)
        reach = solid.BoundingBox()
        assert reach.ymax == pytest.approx(222 + 0.5 + 5, abs=0.05)  # the knuckle is 5 mm across
        assert (reach.zmin, reach.zmax) == pytest.approx((300 - 2.5, 300 + 2.5), abs=0.05)


def test_hinge_wider_than_what_it_is_let_into(outcome):
    piece, problems = outcome(chest(size="75 mm"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert "at least 1.5 mm" in problems[0].message


def test_hinges_that_do_not_fit_the_strip(outcome):
    piece, problems = outcome(chest().replace("inset: 100", "inset: 380"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
