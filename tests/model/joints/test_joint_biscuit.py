"""Biscuits end to face and edge to edge, against the volumes of segments of a circle; sizes are common practice."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.joints.biscuit import slot_long
from model.overlap import common_volume
from model.takeoff import hardware
from plans.library import biscuit_sizes
from plans.problems import has_errors

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 400, width: 60, thickness: 40,
     where: {left: -300, centred: front-back, bottom: floor}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 150, thickness: 24,
     where: {top: 380, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - biscuit: {of: rail, into: post, SAID}
"""
DEEP = {"0": 8.0, "10": 10.0, "20": 12.3}  # as joiners are set


def segment(deep: float) -> float:
    """Volume of a slot 4 mm wide: the segment of a circle of 100 mm, `deep` high (closed formula, mm3)."""
    angle = 2 * math.acos(1 - deep / 50)
    return 4 * 50**2 / 2 * (angle - math.sin(angle))


@pytest.mark.parametrize("size", DEEP)
def test_end_to_face(built, size):
    piece = built(FRAME.replace("SAID", f"size: {size}, per place: 2, count: 2"))
    assert not has_errors(check_fit(piece, as_printed=False))
    rail, post = piece.parts["rail"], piece.parts["post left"]
    assert 480 * 150 * 24 - rail.sharp.Volume() == pytest.approx(4 * segment(DEEP[size]), rel=1e-9)
    assert 400 * 60 * 40 - post.sharp.Volume() == pytest.approx(2 * segment(DEEP[size]), rel=1e-9)
    assert common_volume(*(p.sharp.moved(p.at) for p in (rail, post))) < 1e-6
    (joint, _) = piece.joints
    assert joint.direction == pytest.approx((-1, 0, 0)) and joint.glued
    (row,) = hardware(piece)
    assert (row.what, row.count, row.values) == ("biscuit", 4, {"size": size})


def test_a_slot_leaves_room_to_shift_its_biscuit():
    for size in biscuit_sizes():
        assert size.wide / 2 + 0.4 <= size.deep <= size.wide / 2 + 1.0
        # the pointed end of the biscuit lies where the slot is longest, at the face
        assert 6.0 <= slot_long(size.deep) - size.long <= 10.0


def test_slots_of_both_parts_are_set_out_to_match(built):
    piece = built(FRAME.replace("SAID", "size: 10, per place: 2, from ends: 40"))
    (in_post,) = [f for f in piece.parts["post left"].features if f.kind == "biscuit slot"]
    # the rail's top is 20 below the top of the post: 20 + 40, then what is left between
    assert [s.value for s in in_post.sizes if s.along == "up-down"] == pytest.approx([60, 70])
    in_rail = next(f for f in piece.parts["rail"].features if f.kind == "biscuit slot")
    assert [s.value for s in in_rail.sizes if s.along == "up-down"] == pytest.approx([40, 70])
    assert in_rail.callouts[0].face in ("left", "right") and in_post.callouts[0].face == "right"


BOARDS = """parts:
  left board:
    {wood: white oak, runs: front-back, thick: up-down, length: 500, width: 90, thickness: THICK,
     where: {right: 0, centred: front-back, bottom: floor}}
  right board:
    {wood: white oak, runs: front-back, thick: up-down, length: 500, width: 90, thickness: THICK,
     where: {left: 0, centred: front-back, bottom: floor}}
joints:
  - biscuit: {of: left board, into: right board, size: SIZE, per place: NUMBER, count: 1}
"""


@settings(max_examples=8, deadline=None)
@given(size=st.sampled_from(sorted(DEEP)), thick=st.integers(12, 40), number=st.integers(1, 6))
def test_edge_to_edge(built, size, thick, number):
    text = BOARDS.replace("SIZE", size).replace("THICK", str(thick)).replace("NUMBER", str(number))
    piece = built(text)
    for part in piece.parts.values():
        assert 500 * 90 * thick - part.sharp.Volume() == pytest.approx(number * segment(DEEP[size]), rel=1e-9)
    assert not has_errors(check_fit(piece, as_printed=False))
    spread = [s.value for f in piece.parts["left board"].features if f.kind == "biscuit slot" for s in f.sizes]
    assert spread[0] == pytest.approx(500 / number / 2)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        # chords: 60 mm for size 10, 65.7 for size 20
        ("size: 20, per place: 3", "stand 50 mm apart"),
        ("size: 10, per place: 2, from ends: 32", "leaves 2 mm of wall in rail; at least 3 mm is wanted"),
        ("size: 10, from ends: 80", "no room for a row on a face 150 mm long"),
    ],
)
def test_outside_its_limits(outcome, said, words):
    piece, (problem,) = outcome(FRAME.replace("SAID", said))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 14)
    assert words in problem.message


def test_too_little_wood_under_a_slot(outcome):
    piece, (problem,) = outcome(FRAME.replace("width: 60", "width: 15").replace("SAID", "size: 20, per place: 1"))
    assert piece is None and problem.code == "joint-fails"
    assert "of wood under it in post left" in problem.message


def test_a_face_too_narrow_is_no_place(outcome):
    text = FRAME.replace("thickness: 24", "thickness: 10").replace("SAID", "size: 0")
    piece, (problem,) = outcome(text)
    assert piece is None and problem.code == "joint-not-found"
