"""Breadboard ends: tongue, groove, pegs and slots by closed formula; the play by the Wood Handbook's coefficients."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.overlap import common_volume
from model.takeoff import hardware
from plans.problems import has_errors

TABLE = """parts:
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 800, width: 480, thickness: 22,
     where: {top: 700, centred: [left-right, front-back]}}
  top end:
    {wood: white oak, runs: front-back, thick: up-down, length: 480, width: 80, thickness: 22,
     where: {right: top.left, top: 700, centred: front-back}, mirror: left-right}
joints:
  - breadboard end: {of: top, into: top end, SAID, pegs: {diameter: 6, count: 3, set in: 12PEGS}, count: 2}
"""
TOP, END = 800 * 480 * 22, 480 * 80 * 22
CIRCLE = math.pi * 9


def table(built, said: str, pegs: str = ""):
    piece = built(TABLE.replace("SAID", said).replace("PEGS", pegs))
    assert not has_errors(check_fit(piece, as_printed=False))
    top, end = (piece.parts[name] for name in ("top", "top end left"))
    assert common_volume(top.sharp.moved(top.at), end.sharp.moved(end.at)) < 1e-6
    return piece


def test_stopped_tongue_has_room_to_move(built):
    piece = table(built, "thick: 8, long: 30, set back: 20, play: 6")
    # outer pegs stand a third of the tongue from the middle: their slots are drawn out by that share of the play
    assert piece.parts["top"].sharp.Volume() - TOP == pytest.approx(
        2 * 8 * (440 * 30 - CIRCLE - 2 * (CIRCLE + 6 * 2 * 6 * (440 / 3) / 240)), rel=1e-9
    )
    groove = 8.2 * (440 + 2 * 6 + 0.2) * 31.5
    assert END - piece.parts["top end left"].sharp.Volume() == pytest.approx(groove + 3 * CIRCLE * (22 - 8.2), rel=1e-9)


def test_tongue_that_runs_out(built):
    piece = table(built, "thick: 8, long: 30, play: 6", ", from: bottom, deep: 18")
    assert END - piece.parts["top end left"].sharp.Volume() == pytest.approx(
        8.2 * 480 * 31.5 + 3 * CIRCLE * (18 - 8.2), rel=1e-9
    )
    (holes,) = [f for f in piece.parts["top end left"].features if f.kind == "peg hole"]
    assert holes.callouts[0].face == "bottom"


def test_play_comes_from_the_wood(built):
    # FPL-GTR-190, table 13-5: white oak changes by 0.00365 of its width for 1 % of moisture (flat-sawn); 4 % either way
    piece = table(built, "thick: 8, long: 30, set back: 20")
    play = 240 * 0.00365 * 4
    slots = [
        f.callouts[0].values
        for f in piece.parts["top"].features
        if f.kind == "peg hole" and f.callouts[0].values["slot"]
    ]
    assert [(v["count"], v["slot"]) for v in slots] == [(2, pytest.approx(6 + 2 * play * (440 / 3) / 240))] * 2
    groove = next(f for f in piece.parts["top end left"].features if f.kind == "end groove")
    assert groove.callouts[0].values["long"] == pytest.approx(440 + 2 * play + 0.2)


def test_one_peg_in_the_middle_and_nothing_glued(built):
    piece = built(TABLE.replace("SAID", "thick: 8, long: 30").replace("PEGS", "").replace("count: 3", "count: 1"))
    assert not any(joint.glued for joint in piece.joints)
    assert [(j.a, j.b, j.direction) for j in piece.joints] == [
        ("top", "top end left", pytest.approx((-1, 0, 0))),
        ("top", "top end right", pytest.approx((1, 0, 0))),
    ]
    assert [(row.what, row.count) for row in hardware(piece)] == [("breadboard peg", 2)]
    holes = [f for f in piece.parts["top"].features if f.kind == "peg hole"]
    assert all(f.callouts[0].values["slot"] == 0 for f in holes)


@settings(max_examples=6, deadline=None)
@given(thick=st.integers(5, 12), long=st.integers(25, 60), back=st.integers(12, 60), play=st.integers(1, 7))
def test_any_tongue_is_sound(built, thick, long, back, play):
    piece = table(built, f"thick: {thick}, long: {long}, set back: {back}, play: {play}")
    wide = 480 - 2 * back
    slots = 2 * (CIRCLE + 6 * 2 * play * (wide / 3) / 240)
    assert piece.parts["top"].sharp.Volume() - TOP == pytest.approx(
        2 * thick * (wide * long - CIRCLE - slots), rel=1e-9
    )


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("thick: 16, long: 30", "leaves 2.9 mm of wall in top end left; at least 3 mm is wanted"),
        ("thick: 8, long: 77", "leaves 1.5 mm of wood under it in top end left; at least 3 mm is wanted"),
        ("thick: 8, long: 30, set back: 8, play: 6", "leaves 1.9 mm of wall in top end left"),
        ("thick: 8, long: 20", "leaves 5 mm of wood between it and the end of the tenon; at least 6 mm is wanted"),
    ],
)
def test_outside_its_limits(outcome, said, words):
    piece, (problem,) = outcome(TABLE.replace("SAID", said).replace("PEGS", ""))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 14)
    assert words in problem.message
