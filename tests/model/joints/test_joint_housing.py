"""Housings against the volumes of boxes, and the leaning one against a prism."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

CASE = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 600, width: 250, thickness: 20,
     where: {bottom: floor, left: -300, centred: front-back}, LEANmirror: left-right}
  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: SHELF, thickness: 18,
     where: {bottom: 300, centred: front-back}, cut to: {left: side, right: side}}
joints:
  - housing: {of: shelf, into: side, deep: 6, MOREcount: 2}
"""


def case(text: str = "", lean: str = "", shelf: float = 250) -> str:
    return CASE.replace("MORE", text).replace("LEAN", lean).replace("SHELF", str(shelf))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_through_housing(built):
    piece = built(case("fit: 0, "))
    side, shelf = piece.parts["side left"], piece.parts["shelf"]
    assert side.sharp.Volume() == pytest.approx(600 * 250 * 20 - 18 * 6 * 250, rel=1e-9)
    # 560 between the sides, and 6 into each
    assert shelf.sharp.Volume() == pytest.approx(572 * 250 * 18, rel=1e-9)
    assert shelf.length == pytest.approx((-286, 286))
    assert shares(piece, "shelf", "side left") < 1e-6
    # the end of the shelf on the floor of the groove, and both walls
    assert glue_area(shelf, side) == pytest.approx(250 * 18 + 2 * 250 * 6, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))
    for joint in piece.joints:
        outwards = -1 if joint.b == "side left" else 1
        assert joint.direction == pytest.approx((outwards, 0, 0)) and joint.travel == 6
    (housing,) = [f for f in side.features if f.kind == "housing"]
    # the tape is hooked on the top of an upright: the groove begins 600 - 318 below it
    assert {(s.role, round(s.value, 6)) for s in housing.sizes} >= {("position", 282), ("size", 18), ("size", 6)}


def test_stopped_at_the_front(built):
    piece = built(case("fit: 0, stopped: {front: 15}, "))
    side, shelf = piece.parts["side right"], piece.parts["shelf"]
    assert side.sharp.Volume() == pytest.approx(600 * 250 * 20 - 18 * 6 * 235, rel=1e-9)
    assert shelf.sharp.Volume() == pytest.approx(572 * 250 * 18 - 2 * 15 * 6 * 18, rel=1e-9)
    # floor, two walls, the stopped end, and the shoulder in front of it
    assert glue_area(shelf, side) == pytest.approx(235 * 18 + 2 * 235 * 6 + 18 * 6 + 15 * 18, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))
    (housing,) = [f for f in side.features if f.kind == "housing"]
    assert housing.callouts[0].values["stopped"] == "front"


@pytest.mark.parametrize("flush", ["", "flush: top, ", "flush: bottom, "])
def test_thinner_tongue(built, flush):
    piece = built(case(f"fit: 0.1, relief: 1, thick: 8, {flush}"))
    side, shelf = piece.parts["side left"], piece.parts["shelf"]
    assert side.sharp.Volume() == pytest.approx(600 * 250 * 20 - 8.2 * 7 * 250, rel=1e-9)
    assert shelf.sharp.Volume() == pytest.approx(560 * 250 * 18 + 2 * 6 * 8 * 250, rel=1e-9)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_shelf_wider_than_its_sides(built):
    piece = built(case("fit: 0, ", shelf=300))
    # only what lies against the side goes in: the rest of the end stays where it was
    assert piece.parts["shelf"].sharp.Volume() == pytest.approx(560 * 300 * 18 + 2 * 6 * 18 * 250, rel=1e-9)
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - 18 * 6 * 250, rel=1e-9)


@settings(max_examples=6, deadline=None)
@given(lean=st.integers(1, 120).map(lambda n: n / 10))
def test_leaning_side(built, lean):
    piece = built(case("fit: 0, ", f"lean: {{foot to: {{left: {lean}}}}}, "))
    # the groove is a parallelogram: its walls level, its floor 6 mm from the leaning face
    area = 18 * 6 / math.cos(math.radians(lean))
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - area * 250, rel=1e-9)
    assert shares(piece, "shelf", "side left") < 1e-6
    assert not has_errors(check_fit(piece, as_printed=False))


@settings(max_examples=8, deadline=None)
@given(
    deep=st.integers(10, 160).map(lambda n: n / 10),
    stop=st.integers(0, 200),
    fit=st.integers(0, 5).map(lambda n: n / 10),
)
def test_any_housing(built, deep, stop, fit):
    stopped = f"stopped: {{back: {stop}}}, " if stop else ""
    piece = built(case(f"fit: {fit}, {stopped}").replace("deep: 6", f"deep: {deep}"))
    long = 250 - stop + (fit if stop else 0)
    lost = (18 + 2 * fit) * deep * long
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - lost, rel=1e-9)
    assert shares(piece, "shelf", "side left") < 1e-6


def test_too_little_wall(outcome):
    piece, problems = outcome(case().replace("deep: 6", "deep: 17.5"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 14)]
    assert "leaves 2.5 mm of wall; at least 3 mm is wanted" in problems[0].message
