"""Scribed ends and edges against the sections of what they are cut to."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.overlap import common_volume
from plans.problems import has_errors

# a skirting of 20 x 100 with its top sloping, on the left of a plinth rail that runs up to the wall behind it
ROOM = """parts:
  skirting:
    {wood: white oak, runs: front-back, thick: left-right, length: 400, width: 100, thickness: 20,
     where: {left: 0, bottom: floor, centred: front-back},
     shaping: [bevel: {edge: top, towards: right, angle: SLOPE}]}
  plinth:
    {wood: white oak, runs: left-right, thick: front-back, length: 600, width: 140, thickness: 24,
     where: {left: LEFT, bottom: floor, centred: front-back}}
joints:
  - scribe: {of: plinth, to: skirting, side: left, count: 1}
"""


def room(built, slope: float = 30, left: float = 0, more: str = ""):
    piece = built(ROOM.replace("SLOPE", str(slope)).replace("LEFT", str(left)).replace("count: 1", f"count: 1{more}"))
    assert not has_errors(check_fit(piece, as_printed=False))
    first, second = piece.parts["plinth"], piece.parts["skirting"]
    assert common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at)) < 1e-6
    return piece


@settings(max_examples=6, deadline=None)
@given(slope=st.integers(10, 60))
def test_end_over_a_skirting(built, slope):
    piece = room(built, slope)
    # the section of the skirting: a rectangle less the triangle off its top
    section = 20 * 100 - 20 * 20 * math.tan(math.radians(slope)) / 2
    assert 600 * 140 * 24 - piece.parts["plinth"].sharp.Volume() == pytest.approx(section * 24, rel=1e-6)
    assert piece.parts["skirting"].sharp.Volume() == pytest.approx(section * 400, rel=1e-6)
    (cut,) = [f for f in piece.parts["plinth"].features if f.kind == "scribe"]
    # above the skirting the plinth reaches the wall still
    assert cut.callouts[0].values["deep"] == pytest.approx(20) and cut.callouts[0].values["what"] == "end"
    assert [(s.name, s.value, s.along) for s in cut.sizes] == [("scribe depth", pytest.approx(20), "left-right")]


def test_what_lies_beyond_is_taken_too(built):
    # the rail runs 50 mm past a skirting that is as high as it is: the offcut goes, the profile stays
    text = ROOM.replace("SLOPE", "30").replace("LEFT", "-50").replace("width: 140", "width: 80")
    piece = built(text)
    assert not has_errors(check_fit(piece, as_printed=False))
    low, high = piece.parts["plinth"].length
    assert high - low == pytest.approx(600 - 50 - 20)
    assert piece.parts["plinth"].sharp.Volume() == pytest.approx(530 * 80 * 24, rel=1e-9)
    (cut,) = [f for f in piece.parts["plinth"].features if f.kind == "scribe"]
    assert not cut.sizes and cut.callouts[0].values["deep"] == pytest.approx(0)
    (joint,) = piece.joints
    assert joint.direction == pytest.approx((-1, 0, 0)) and not joint.glued


def test_glued_where_it_says_so(built):
    (joint,) = room(built, more=", glue: yes").joints
    assert joint.glued


def test_the_other_side_is_not_cut(outcome):
    piece, (problem,) = outcome(ROOM.replace("SLOPE", "30").replace("LEFT", "0").replace("side: left", "side: right"))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-not-found", 15)


def test_too_little_left(outcome):
    piece, (problem,) = outcome(ROOM.replace("SLOPE", "30").replace("LEFT", "-350").replace("width: 140", "width: 80"))
    assert piece is None and problem.code == "joint-not-found"
    text = ROOM.replace("SLOPE", "30").replace("LEFT", "-285").replace("width: 140", "width: 80")
    piece, (problem,) = outcome(text)
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 15)
    assert "at least 50 is wanted" in problem.message
