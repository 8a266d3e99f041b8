"""Dowels end to face and edge to edge, against the volumes of cylinders."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.takeoff import hardware
from plans.problems import has_errors

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 400, width: 60, thickness: 40,
     where: {left: -300, centred: front-back, bottom: floor}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 80, thickness: 24,
     where: {top: 380, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - dowel: {of: rail, into: post, SAID}
"""
RELIEF = 1.5


def test_end_to_face(built):
    piece = built(FRAME.replace("SAID", "diameter: 10, long: 60, deep: 25, per place: 2, count: 2"))
    assert not has_errors(check_fit(piece, as_printed=False))
    circle = math.pi * 25
    rail, post = piece.parts["rail"], piece.parts["post left"]
    assert 480 * 80 * 24 - rail.sharp.Volume() == pytest.approx(4 * circle * (35 + RELIEF), rel=1e-9)
    assert 400 * 60 * 40 - post.sharp.Volume() == pytest.approx(2 * circle * (25 + RELIEF), rel=1e-9)
    (joint, _) = piece.joints
    assert joint.direction == pytest.approx((-1, 0, 0)) and joint.travel == pytest.approx(35)
    (row,) = hardware(piece)
    assert (row.what, row.count, row.values) == ("dowel", 4, {"diameter": 10.0, "long": 60.0})


def test_holes_of_both_parts_are_set_out_to_match(built):
    piece = built(FRAME.replace("SAID", "diameter: 10, long: 60, per place: 3, from ends: 12"))
    (in_post,) = [f for f in piece.parts["post left"].features if f.kind == "dowel hole"]
    down = [s for s in in_post.sizes if s.along == "up-down"]
    # the rail's top is 20 below the top of the post: 20 + 12, then two equal steps
    assert [s.value for s in down] == pytest.approx([32, 28, 28])
    in_rail = next(f for f in piece.parts["rail"].features if f.kind == "dowel hole")
    assert [s.value for s in in_rail.sizes if s.along == "up-down"] == pytest.approx([12, 28, 28])
    assert in_rail.callouts[0].face in ("left", "right") and in_post.callouts[0].face == "right"


BOARDS = """parts:
  left board:
    {wood: white oak, runs: front-back, thick: up-down, length: 500, width: 90, thickness: 22,
     where: {right: 0, centred: front-back, bottom: floor}}
  right board:
    {wood: white oak, runs: front-back, thick: up-down, length: 500, width: 90, thickness: 22,
     where: {left: 0, centred: front-back, bottom: floor}}
joints:
  - dowel: {of: left board, into: right board, diameter: DIAMETER, long: LONG, per place: NUMBER, count: 1}
"""


@settings(max_examples=8, deadline=None)
@given(diameter=st.integers(5, 10), long=st.integers(20, 80), number=st.integers(1, 8))
def test_edge_to_edge(built, diameter, long, number):
    text = BOARDS.replace("DIAMETER", str(diameter)).replace("LONG", str(long)).replace("NUMBER", str(number))
    piece = built(text)
    hole = math.pi * diameter**2 / 4 * (long / 2 + RELIEF)
    for part in piece.parts.values():
        assert 500 * 90 * 22 - part.sharp.Volume() == pytest.approx(number * hole, rel=1e-9)
    assert not has_errors(check_fit(piece, as_printed=False))
    spread = [s.value for f in piece.parts["left board"].features if f.kind == "dowel hole" for s in f.sizes]
    assert spread[0] == pytest.approx(500 / number / 2)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("diameter: 10, long: 130, deep: 57", "leaves 1.5 mm of wood under it in post left; at least 3 mm is wanted"),
        ("diameter: 10, long: 60, per place: 5", "stand 16 mm apart"),
        ("diameter: 10, long: 60, from ends: 6", "leaves 1 mm of wall in rail; at least 3 mm is wanted"),
        ("diameter: 10, long: 60, from ends: 40", "no room for a row on a face 80 mm long"),
    ],
)
def test_outside_its_limits(outcome, said, words):
    piece, (problem,) = outcome(FRAME.replace("SAID", said))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 14)
    assert words in problem.message


def test_a_face_too_narrow_is_no_place(outcome):
    piece, (problem,) = outcome(FRAME.replace("SAID", "diameter: 13, long: 60"))
    assert piece is None and problem.code == "joint-not-found"
