"""Halvings, square and at an angle, against the volumes of blocks and of a parallelogram prism."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume

SQUARE = """parts:
  long one:
    {wood: white oak, runs: left-right, thick: up-down, length: 400, width: 50, thickness: 30,
     where: {bottom: floor, centred: [left-right, front-back]}}
  short one:
    {wood: white oak, runs: front-back, thick: up-down, length: 200, width: 40, thickness: 30,
     where: {bottom: floor, centred: [left-right, front-back]}}
joints:
  - cross halving: {of: long one, across: short one, notch in: top, MOREcount: 1}
"""


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


@pytest.mark.parametrize("share", [0.5, 0.25, 0.7])
def test_square_halving(built, share):
    piece = built(SQUARE.replace("MORE", f"share: {share}, "))
    lower, upper = piece.parts["long one"], piece.parts["short one"]
    assert lower.sharp.Volume() == pytest.approx(400 * 50 * 30 - 40 * 50 * 30 * share, rel=1e-9)
    assert upper.sharp.Volume() == pytest.approx(200 * 40 * 30 - 40 * 50 * 30 * (1 - share), rel=1e-9)
    assert shares(piece, "long one", "short one") < 1e-6
    # floor on floor, and both walls of both notches
    touching = 40 * 50 + 2 * 50 * 30 * share + 2 * 40 * 30 * (1 - share)
    assert glue_area(lower, upper) == pytest.approx(touching, rel=1e-6)
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}
    (joint,) = piece.joints
    # the notch of the first opens upwards: it goes up into the other
    assert joint.direction == pytest.approx((0, 0, 1)) and joint.travel == pytest.approx(30 * max(share, 1 - share))


def test_room_is_given_across_each_notch(built):
    piece = built(SQUARE.replace("MORE", "fit: 0.2, "))
    assert piece.parts["long one"].sharp.Volume() == pytest.approx(400 * 50 * 30 - 40.4 * 50 * 15, rel=1e-9)
    assert piece.parts["short one"].sharp.Volume() == pytest.approx(200 * 40 * 30 - 40 * 50.4 * 15, rel=1e-9)


LEANING = """parts:
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 500, width: 50, thickness: 20,
     where: {top: 300, centred: [left-right, front-back]}}
  brace:
    {wood: white oak, runs: up-down, thick: front-back, length: 600, width: 40, thickness: 20,
     where: {centred: [left-right, front-back], bottom: floor, measured at: 275}, lean: {foot to: {left: LEAN}}}
joints:
  - cross halving: {of: brace, across: rail, notch in: front, count: 1}
"""


@settings(max_examples=6, deadline=None)
@given(lean=st.integers(-450, 450).map(lambda n: n / 10))
def test_halving_at_an_angle(built, lean):
    piece = built(LEANING.replace("LEAN", str(lean)))
    crossing = 40 * 50 / math.cos(math.radians(lean)) * 20
    assert piece.parts["brace"].sharp.Volume() == pytest.approx(600 * 40 * 20 - crossing / 2, rel=1e-9)
    assert piece.parts["rail"].sharp.Volume() == pytest.approx(500 * 50 * 20 - crossing / 2, rel=1e-9)
    assert shares(piece, "brace", "rail") < 1e-6
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}
    (feature,) = [f for f in piece.parts["brace"].features if f.kind == "halving"]
    values = feature.callouts[0].values
    assert values["side"] == "front" and values["deep"] == pytest.approx(10)
    assert values["walls"] == pytest.approx(abs(lean), abs=1e-5)


def test_parts_that_do_not_cross(outcome):
    piece, problems = outcome(SQUARE.replace("MORE", "").replace("bottom: floor, centred", "bottom: 50, centred", 1))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-not-found", 14)]


CORNER_OR_TEE = """parts:
  stile:
    {wood: white oak, runs: up-down, thick: front-back, length: 500, width: 60, thickness: 24,
     where: {bottom: floor, left: 0, centred: front-back}}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 400, width: 50, thickness: 24,
     where: {PLACE, left: 0, centred: front-back}}
joints:
  - cross halving: {of: rail, across: stile, notch in: front, count: 1}
"""


@pytest.mark.parametrize(
    ("place", "stile_walls", "where"),
    [("top: 500", 1, "at the end"), ("bottom: floor", 1, "at the end"), ("top: 300", 2, "along it")],
)
def test_corner_and_tee_halving(built, place, stile_walls, where):
    piece = built(CORNER_OR_TEE.replace("PLACE", place))
    stile, rail = piece.parts["stile"], piece.parts["rail"]
    # both lose half of the block in which they cross; at a corner each loses it at its end
    assert 500 * 60 * 24 - stile.sharp.Volume() == pytest.approx(60 * 50 * 12, rel=1e-9)
    assert 400 * 50 * 24 - rail.sharp.Volume() == pytest.approx(60 * 50 * 12, rel=1e-9)
    assert shares(piece, "stile", "rail") < 1e-6
    # face on face, the shoulder of the rail, and one shoulder of the stile at a corner or two at a tee
    touching = 60 * 50 + 50 * 12 + stile_walls * 60 * 12
    assert glue_area(stile, rail) == pytest.approx(touching, rel=1e-6), where
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}
    (joint,) = piece.joints
    assert joint.direction == pytest.approx((0, -1, 0)) and joint.travel == pytest.approx(12)
    (cut,) = [f for f in stile.features if f.kind == "halving"]
    assert cut.callouts[0].values["side"] == "back"
    positions = [s.value for s in cut.sizes if s.role == "position" and s.along == "up-down"]
    assert positions == ([] if place == "top: 500" else pytest.approx([450 if place == "bottom: floor" else 200]))
