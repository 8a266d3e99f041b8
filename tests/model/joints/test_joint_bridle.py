"""Bridles at a corner, at a tee and leaning, against the volumes of blocks and of a parallelogram prism."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume

W, T, TONGUE, FIT = 60.0, 30.0, 10.0, 0.1

CORNER = """parts:
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 400, width: 60, thickness: 30,
     where: {top: 500, left: 0, centred: front-back}}
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 500, width: 60, thickness: 30,
     where: {bottom: floor, LEFT, centred: front-back}}
joints:
  - bridle: {of: OF, into: INTO, thick: 10, count: 1}
"""


def joined(built, left: str, of: str, into: str):
    return built(CORNER.replace("LEFT", left).replace("OF", of).replace("INTO", into))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


@pytest.mark.parametrize(("left", "where"), [("left: 0", "corner"), ("left: 170", "tee")])
def test_square_bridle(built, left, where):
    # at a corner the rail may hold the tongue or the slot; at a tee the slot is in the end of the post
    piece = joined(built, left, "rail", "post")
    rail, post = piece.parts["rail"], piece.parts["post"]
    assert rail.sharp.Volume() == pytest.approx(400 * W * T - W * W * (T - TONGUE), rel=1e-9)
    assert post.sharp.Volume() == pytest.approx(500 * W * T - W * W * (TONGUE + 2 * FIT), rel=1e-9)
    assert shares(piece, "rail", "post") < 1e-6
    # two cheeks; the bottom of the slot on the tongue's edge; the shoulders of the two recesses in the rail
    sides = 1 if where == "corner" else 2
    expected = 2 * W * W + W * TONGUE + sides * W * (T - TONGUE - 2 * FIT)
    assert glue_area(rail, post) == pytest.approx(expected, rel=1e-6)
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}


def test_slot_slides_over_the_tongue(built):
    (joint,) = joined(built, "left: 170", "rail", "post").joints
    assert (joint.a, joint.b, joint.glued) == ("rail", "post", True)
    # the post stands below: the rail goes down into it by the depth of the slot
    assert joint.direction == pytest.approx((0, 0, -1)) and joint.travel == pytest.approx(W)


def test_corner_the_other_way_round(built):
    piece = joined(built, "left: 0", "post", "rail")
    assert piece.parts["post"].sharp.Volume() == pytest.approx(500 * W * T - W * W * (T - TONGUE), rel=1e-9)
    (joint,) = piece.joints
    # the rail's slot opens on the left: the post goes into it towards the right
    assert joint.direction == pytest.approx((1, 0, 0))


LEANING = """parts:
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 400, width: 60, thickness: 30,
     where: {top: 500, centred: [left-right, front-back]}}
  post:
    wood: white oak
    runs: up-down
    thick: front-back
    width: 60
    thickness: 30
    where: {left: -30, centred: front-back, measured at: 470}
    lean: {foot to: {left: LEAN}}
    cut to: {top: rail.top, bottom: floor}
joints:
  - bridle: {of: rail, into: post, thick: 10, count: 1}
"""


@settings(max_examples=6, deadline=None)
@given(lean=st.integers(-250, 250).map(lambda n: n / 10))
def test_leaning_bridle(built, lean):
    piece = built(LEANING.replace("LEAN", str(lean)))
    c = math.cos(math.radians(lean))
    # where the two cross is a parallelogram: as high as the rail, as long as a level cut through the post
    crossing = W * W / c
    rail, post = piece.parts["rail"], piece.parts["post"]
    assert rail.sharp.Volume() == pytest.approx(400 * W * T - crossing * (T - TONGUE), rel=1e-9)
    assert post.sharp.Volume() == pytest.approx(500 * W * T / c - crossing * (TONGUE + 2 * FIT), rel=1e-9)
    assert shares(piece, "rail", "post") < 1e-6
    edges = W / c * TONGUE  # the bottom of the slot lies along the rail
    shoulders = 2 * (W / c) * (T - TONGUE - 2 * FIT)
    assert glue_area(rail, post) == pytest.approx(2 * crossing + edges + shoulders, rel=1e-6)
    tilt = math.radians(lean)
    assert piece.joints[0].direction == pytest.approx((-math.sin(tilt), 0, -math.cos(tilt)))


def test_tongue_as_thick_as_the_rail(outcome):
    text = CORNER.replace("LEFT", "left: 0").replace("OF", "rail").replace("INTO", "post")
    piece, problems = outcome(text.replace("thick: 10", "thick: 30"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 14)]
