"""Machine bolts and threaded inserts, against cylinders and the sizes of ISO 261 and ISO 273 (from memory)."""

import math

import pytest

from model.checks import check_fit
from plans.library import bought
from plans.problems import has_errors

PAIR = """parts:
  post:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 100, thickness: 50,
     where: {bottom: floor, centred: [left-right, front-back]}}
  rail:
    {wood: white oak, runs: left-right, thick: up-down, length: 120, width: WIDE, thickness: 20,
     where: {bottom: post.top, centred: [left-right, front-back]}}
fixings:
  - machine bolt: {through: rail, into: post, size: SIZE, long: LONG, MORE}
"""


def pair(size="M6", long="32", more="count: 1", wide=60):
    return PAIR.replace("SIZE", size).replace("LONG", long).replace("MORE", more).replace("WIDE", str(wide))


def cylinder(diameter: float, deep: float) -> float:
    return math.pi * diameter**2 / 4 * deep


def test_clear_hole_and_insert(built):
    piece = built(pair())
    # M6: clear hole 6.6 (ISO 273 medium); insert 9 mm, 13 mm deep (common practice), the bolt 12 mm into it
    assert 120 * 60 * 20 - piece.parts["rail"].sharp.Volume() == pytest.approx(cylinder(6.6, 20))
    assert 300 * 100 * 50 - piece.parts["post"].sharp.Volume() == pytest.approx(cylinder(9, 13))
    assert not has_errors(check_fit(piece, as_printed=False))


def test_sunk_head(built):
    piece = built(pair(more="sunk: 8, per place: 2", long="24"))
    each = cylinder(15, 8) + cylinder(6.6, 12)  # 1.5 times the head of 10 mm (ISO 4762)
    assert 120 * 60 * 20 - piece.parts["rail"].sharp.Volume() == pytest.approx(2 * each)
    assert not has_errors(check_fit(piece, as_printed=False))


@pytest.mark.parametrize(
    ("inch", "metric", "major"), [("1/4-20", "M6", 0.25), ("5/16-18", "M8", 0.3125), ("3/8-16", "M10", 0.375)]
)
def test_threads_of_the_table(inch, metric, major):
    # major diameters: ASME B1.1 and ISO 261; a counterpart is the nearest ISO coarse thread (common practice)
    known, counterpart = bought("threads", inch), bought("threads", metric)
    assert known is not None and counterpart is not None
    assert known["diameter"] == pytest.approx(major * 25.4) and counterpart["diameter"] == float(metric[1:])
    assert known.mm == metric and counterpart.inch == inch
    for one in (known, counterpart):
        assert one["diameter"] < one["clear"] < one["insert"] < one["head"] * 1.5


@pytest.mark.parametrize(("change", "said"), [({"long": "23"}, "at least 6 mm"), ({"long": "69"}, "at least 2 mm")])
def test_outside_the_limits(outcome, change, said):
    piece, problems = outcome(pair(**change))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert said in problems[0].message


def test_bolts_into_an_end_follow_its_width(built):
    """Two along the 240 mm of an upright's end, not across its 20 mm."""
    case = """parts:
  upright:
    {wood: sugar maple, runs: up-down, thick: left-right, length: 300, width: 240, thickness: 20,
     where: {bottom: floor, centred: [left-right, front-back]}}
  top:
    {wood: sugar maple, runs: left-right, thick: up-down, length: 400, width: 260, thickness: 20,
     where: {bottom: upright.top, centred: [left-right, front-back]}}
fixings:
  - machine bolt: {through: top, into: upright, size: M4, long: 32, per place: 2}
"""
    points = sorted(built(case).fixings[0].points)
    assert [point[:2] for point in points] == [pytest.approx((0, -60)), pytest.approx((0, 60))]
