"""Tongue and groove against the volumes of boxes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

BOARDS = """parts:
  board:
    {wood: white oak, runs: left-right, thick: up-down, length: 400, width: 90, thickness: 16,
     where: {bottom: floor, centred: [left-right, front-back]}, repeat: {along: front-back, count: 3, gap: GAP}}
joints:
  - tongue and groove: {of: board, into: board, edge: back, thick: 5, long: 8, MOREcount: 2}
"""


def boards(gap: float = 0, more: str = "") -> str:
    return BOARDS.replace("GAP", str(gap)).replace("MORE", more)


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_glued_boards(built):
    piece = built(boards(more="fit: 0, relief: 1, "))
    first, middle, last = (piece.parts[f"board {n}"] for n in (1, 2, 3))
    blank, tongue, groove = 400 * 90 * 16, 400 * 5 * 8, 400 * 5 * 9
    assert first.sharp.Volume() == pytest.approx(blank + tongue, rel=1e-9)
    assert middle.sharp.Volume() == pytest.approx(blank + tongue - groove, rel=1e-9)
    assert last.sharp.Volume() == pytest.approx(blank - groove, rel=1e-9)
    # both shoulders and both cheeks; the end of the tongue stands 1 mm off
    assert glue_area(first, middle) == pytest.approx(400 * (16 - 5) + 2 * 400 * 8, rel=1e-6)
    assert shares(piece, "board 1", "board 2") < 1e-6
    assert first.width == pytest.approx((-45, 53))
    assert not has_errors(check_fit(piece, as_printed=False))
    assert len(piece.items) == 3


def test_room_to_swell(built):
    piece = built(boards(2, "fit: 0.1, relief: 1, glue: no, "))
    # the tongue bridges the gap, so the groove is 2 mm shallower than it would be
    assert piece.parts["board 1"].sharp.Volume() == pytest.approx(400 * 90 * 16 + 400 * 5 * 8, rel=1e-9)
    assert piece.parts["board 3"].sharp.Volume() == pytest.approx(400 * 90 * 16 - 400 * 5.2 * 7, rel=1e-9)
    assert [j.travel for j in piece.joints] == pytest.approx([6, 6])
    assert not any(j.glued for j in piece.joints)


@settings(max_examples=8, deadline=None)
@given(
    thick=st.integers(20, 150).map(lambda n: n / 10),
    long=st.integers(40, 300).map(lambda n: n / 10),
    flush=st.sampled_from(["", "flush: top, ", "flush: bottom, "]),
)
def test_any_tongue(built, thick, long, flush):
    text = boards(1, f"fit: 0, relief: 0, {flush}").replace("thick: 5, long: 8", f"thick: {thick}, long: {long}")
    piece = built(text)
    assert piece.parts["board 1"].sharp.Volume() == pytest.approx(400 * (90 * 16 + thick * long), rel=1e-9)
    assert piece.parts["board 3"].sharp.Volume() == pytest.approx(400 * (90 * 16 - thick * (long - 1)), rel=1e-9)
    assert shares(piece, "board 1", "board 2") < 1e-6


def test_tongue_that_does_not_reach(outcome):
    piece, problems = outcome(boards(4).replace("long: 8", "long: 3"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 11)]
    assert "4 mm away" in problems[0].message
