"""Loose tenons end to face, leaning and edge to edge, against the volumes of blocks."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.takeoff import hardware
from plans.problems import has_errors

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, width: 60, thickness: 40, cut to: {top: 500, bottom: floor},
     where: {left: -300, centred: front-back, measured at: 340}, lean: {foot to: {left: LEAN}}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 80, thickness: 30,
     where: {top: 380, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - loose tenon: {of: rail, into: post, SAID}
"""
FIT, RELIEF = 0.1, 1.5


def frame(built, said: str, lean: float = 0.0):
    piece = built(FRAME.replace("SAID", said).replace("LEAN", str(lean)))
    assert not has_errors(check_fit(piece, as_printed=False))
    return piece


def block(thick: float, wide: float, deep: float) -> float:
    return (thick + 2 * FIT) * (wide + 2 * FIT) * (deep + RELIEF)


def test_end_to_face(built):
    piece = frame(built, "thick: 10, wide: 40, long: 70, deep: 30, count: 2")
    rail, post = piece.parts["rail"], piece.parts["post left"]
    assert 480 * 80 * 30 - rail.sharp.Volume() == pytest.approx(2 * block(10, 40, 40), rel=1e-9)
    assert 500 * 60 * 40 - post.sharp.Volume() == pytest.approx(block(10, 40, 30), rel=1e-9)
    # what touches without the tenon: the end of the rail round its mortise
    assert glue_area(rail, post) == pytest.approx(80 * 30 - 40.2 * 10.2, rel=1e-6)
    (row,) = hardware(piece)
    assert (row.what, row.count) == ("loose tenon", 2)
    assert (row.values["thick"], row.values["wide"], row.values["long"]) == (10, 40, 70)


def test_mortises_are_set_out_to_match(built):
    piece = frame(built, "thick: 10, wide: 20, long: 50, per place: 2")
    (first, second) = [f for f in piece.parts["post left"].features if f.kind == "mortise"]
    # 80 of width in halves: middles at 20 and 60 from the top of the rail, which is 120 below the top of the post
    places = sorted(s.value for f in (first, second) for s in f.sizes if s.role == "position" and s.along == "up-down")
    assert places == pytest.approx([120 + 10, 120 + 50])
    assert first.callouts[0].values["deep"] == pytest.approx(25 + RELIEF)


@settings(max_examples=6, deadline=None)
@given(
    lean=st.integers(-150, 150).map(lambda n: n / 10),
    thick=st.integers(6, 18),
    wide=st.integers(20, 50),
    long=st.integers(20, 80),
)
def test_square_to_a_leaning_face(built, lean, thick, wide, long):
    square = frame(built, f"thick: {thick}, wide: {wide}, long: {long}", lean)
    bare = built(FRAME[: FRAME.index("joints:")].replace("LEAN", str(lean)))
    for name, times in (("rail", 2), ("post left", 1)):
        taken = bare.parts[name].sharp.Volume() - square.parts[name].sharp.Volume()
        assert taken == pytest.approx(times * block(thick, wide, long / 2), rel=1e-7)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("thick: 24, wide: 40, long: 60", "leaves 2.9 mm of wall in rail; at least 3 mm is wanted"),
        ("thick: 10, wide: 40, long: 120, deep: 57", "leaves 1.5 mm of wood under it in post left; at least 3"),
        ("thick: 10, wide: 30, long: 60, per place: 2, from ends: 20", "mortises in post left; at least 10 mm"),
    ],
)
def test_outside_its_limits(outcome, said, words):
    said = said if "from ends" not in said else said.replace("20", "22")
    piece, (problem,) = outcome(FRAME.replace("SAID", said).replace("LEAN", "0"))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 14)
    assert words in problem.message
