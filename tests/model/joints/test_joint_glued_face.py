"""Glued faces: nothing is cut, and the area is that of the rectangle where the two lie on each other."""

import pytest

from model.checks import check_fit
from model.glue import glue_area
from model.takeoff import adhesives, glue_total
from plans.problems import has_errors

PAIR = """parts:
  base:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 100, thickness: 20,
     where: {bottom: floor, centred: [left-right, front-back]}}
  cleat:
    {wood: white oak, runs: left-right, thick: up-down, length: 120, width: 40, thickness: 30,
     where: {bottom: base.top + GAP, left: LEFT, centred: front-back}}
joints:
  - glued face: {of: cleat, to: base, count: 1}
"""


@pytest.mark.parametrize(("left", "length"), [(0.0, 120.0), (100.0, 50.0)])
def test_faces_that_touch(built, left, length):
    piece = built(PAIR.replace("GAP", "0").replace("LEFT", str(left)))
    base, cleat = piece.parts["base"], piece.parts["cleat"]
    assert glue_area(base, cleat) == pytest.approx(length * 40)
    assert base.sharp.Volume() == pytest.approx(300 * 100 * 20) and cleat.sharp.Volume() == pytest.approx(120 * 40 * 30)
    (joint,) = piece.joints
    assert joint.point == pytest.approx((left + length / 2, 0, 20)) and joint.direction == pytest.approx((0, 0, -1))
    sides = [part.features[-1].callouts[0].values["side"] for part in (base, cleat)]
    assert sides == ["top", "bottom"]
    assert not has_errors(check_fit(piece, as_printed=False))


def test_faces_apart(outcome):
    piece, problems = outcome(PAIR.replace("GAP", "1").replace("LEFT", "0"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-not-found", 14)]


def test_another_adhesive_is_counted_apart(built):
    piece = built(PAIR.replace("GAP", "0").replace("LEFT", "0").replace("count: 1", "with: flexible adhesive"))
    assert piece.joints[0].adhesive == "flexible adhesive"
    assert adhesives(piece) == {"flexible adhesive": 1} and glue_total(piece) == 0
