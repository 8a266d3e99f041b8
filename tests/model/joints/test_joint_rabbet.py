"""Rabbet joints against the volumes of boxes."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from model.sequence import assembly
from plans.problems import has_errors

CASE = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 600, width: 250, thickness: 20,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  top:
    {wood: white oak, runs: left-right, thick: up-down, width: 250, thickness: 18,
     where: {top: side.top, front: side.front}, cut to: {left: side, right: side}}
  bottom:
    {wood: white oak, runs: left-right, thick: up-down, width: 250, thickness: 18,
     where: {bottom: floor, front: side.front}, cut to: {left: side, right: side}}
  back:
    {wood: white oak, runs: up-down, thick: front-back, width: 560, thickness: 8,
     where: {back: side.back - SET, centred: left-right}, cut to: {top: top, bottom: bottom}}
joints:
  - rabbet: {of: top, into: side, deep: 12, count: 2}
  - rabbet: {of: bottom, into: side, deep: 12, count: 2}
  - rabbet: {of: back, into: [side, top, bottom], deep: DEEP, room: ROOM, count: 4}
"""


def case(deep: float = 10, room: float = 0, back: float = 0) -> str:
    return CASE.replace("DEEP", str(deep)).replace("ROOM", str(room)).replace("SET", str(back))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_corner_and_back(built):
    piece = built(case())
    top, back = piece.parts["top"], piece.parts["back"]
    # 560 between the sides and 12 into each; the back takes 8 x 10 over its length between the shoulders
    assert top.sharp.Volume() == pytest.approx(584 * 250 * 18 - 8 * 10 * (560 + 2 * 10), rel=1e-9)
    # the back is whole at its corners: 564 between top and bottom, 560 between the sides, 10 into each
    assert back.sharp.Volume() == pytest.approx(584 * 580 * 8, rel=1e-9)
    # the rabbet for the back runs into the end of those for top and bottom
    lost = 2 * 18 * 12 * 250 + 8 * 10 * 564
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - lost, rel=1e-9)
    for other in ("top", "bottom", "side left", "side right"):
        assert shares(piece, "back", other) < 1e-6
    assert not has_errors(check_fit(piece, as_printed=False))


def test_what_was_cut_into_a_part_stays_cut_when_its_edges_grow(built):
    """A slot of 80 x 40 with round ends through the back of 8, and a round hole: 584 x 580 x 8 less both."""
    slot = "slot: {side: front, long: 80, wide: 40, along: left-right, at: {bottom: 260}}"
    hole = "hole: {side: front, diameter: 30, at: {top: 100}}"
    piece = built(case().replace("width: 560, thickness: 8,", f"width: 560, thickness: 8, shaping: [{slot}, {hole}],"))
    through = 40 * 40 + pi * 20**2 + pi * 15**2
    assert piece.parts["back"].sharp.Volume() == pytest.approx((584 * 580 - through) * 8, rel=1e-6)


def test_ways_in(built):
    piece = built(case())
    ways = {(j.a, j.number): j.direction for j in piece.joints}
    assert ways["top", 0] == pytest.approx((0, 0, -1))
    assert ways["bottom", 1] == pytest.approx((0, 0, 1))
    assert ways["back", 2] == pytest.approx((0, -1, 0))
    assert assembly(piece)[-1].moves[-1].parts == ("back",)


def test_back_let_in_deeper_than_it_is_thick(built):
    piece = built(case(room=1, back=5))
    # the step is open to the back: 8 mm of back and the 5 mm behind it, and 1 mm of room at its edges
    lost = (8 + 5) * 11 * (560 + 2 * 11)
    assert piece.parts["top"].sharp.Volume() == pytest.approx(584 * 250 * 18 - lost, rel=1e-9)
    assert piece.joints[-1].travel == pytest.approx(13)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_glue_faces_of_a_corner(built):
    piece = built(CASE[: CASE.index("  back:")] + "joints:\n  - rabbet: {of: top, into: side, deep: 12, count: 2}\n")
    top, side = piece.parts["top"], piece.parts["side left"]
    assert glue_area(top, side) == pytest.approx(250 * (18 + 12), rel=1e-6)


@settings(max_examples=6, deadline=None)
@given(deep=st.integers(10, 130).map(lambda n: n / 10), room=st.integers(0, 3).map(lambda n: n / 2))
def test_any_rabbet(built, deep, room):
    piece = built(case(deep, room))
    assert piece.parts["back"].sharp.Volume() == pytest.approx((564 + 2 * deep) * (560 + 2 * deep) * 8, rel=1e-9)
    assert shares(piece, "back", "side left") < 1e-6 and shares(piece, "back", "top") < 1e-6


def test_away_from_the_edge(outcome):
    piece, problems = outcome(case(back=40))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 22)]
    assert "40 mm from its edge" in problems[0].message and "25 mm" in problems[0].message


def test_too_little_wall(outcome):
    piece, problems = outcome(case(deep=16))
    assert piece is None
    assert "of wall; at least 3 mm is wanted" in problems[0].message
