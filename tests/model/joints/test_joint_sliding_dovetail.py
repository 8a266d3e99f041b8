"""Sliding dovetails against the volume of a trapezoid prism."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.overlap import common_volume
from model.sequence import assembly
from plans.problems import has_errors

CASE = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 600, width: 250, thickness: 20,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 250, thickness: 18,
     where: {bottom: 300, centred: front-back}, cut to: {left: side, right: side}}
joints:
  - sliding dovetail: {of: shelf, into: side, deep: 8, slides in from: back, MOREcount: 2}
"""


def case(more: str = "") -> str:
    return CASE.replace("MORE", more)


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


@pytest.mark.parametrize(("slope", "ratio"), [("1:6", 1 / 6), ("1:8", 1 / 8)])
def test_through(built, slope, ratio):
    piece = built(case(f"fit: 0, slope: {slope}, "))
    side, shelf = piece.parts["side left"], piece.parts["shelf"]
    # 18 at the floor of the groove, narrower by the slope on both cheeks at its mouth
    section = 8 * (18 - 8 * ratio)
    assert side.sharp.Volume() == pytest.approx(600 * 250 * 20 - section * 250, rel=1e-9)
    assert shelf.sharp.Volume() == pytest.approx(560 * 250 * 18 + 2 * section * 250, rel=1e-9)
    assert shares(piece, "shelf", "side left") < 1e-6
    assert not has_errors(check_fit(piece, as_printed=False))
    for joint in piece.joints:
        assert joint.direction == pytest.approx((0, -1, 0)) and joint.travel == pytest.approx(250)
    # nothing but sliding takes it apart again
    (last,) = assembly(piece)[-1:]
    assert {abs(leg.direction[1]) for move in last.moves for leg in move.path} == {1.0}


def test_stopped_and_thinner(built):
    piece = built(case("fit: 0, thick: 12, stopped: {front: 20}, "))
    section = 8 * (12 - 1)
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - section * 230, rel=1e-9)
    assert piece.parts["shelf"].sharp.Volume() == pytest.approx(560 * 250 * 18 + 2 * section * 230, rel=1e-9)
    assert not has_errors(check_fit(piece, as_printed=False))


@settings(max_examples=8, deadline=None)
@given(
    deep=st.integers(30, 160).map(lambda n: n / 10),
    thick=st.integers(90, 180).map(lambda n: n / 10),
    fit=st.sampled_from([0.0, 0.1, 0.3]),
)
def test_any_sliding_dovetail(built, deep, thick, fit):
    piece = built(case(f"fit: {fit}, thick: {thick}, ").replace("deep: 8", f"deep: {deep}"))
    section = deep * (thick + 2 * fit - deep / 8)
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(600 * 250 * 20 - section * 250, rel=1e-9)
    assert shares(piece, "shelf", "side left") < 1e-6


def test_neck_too_thin(outcome):
    piece, problems = outcome(case("thick: 5, ").replace("deep: 8", "deep: 12"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 14)]
    assert "is 2 mm; at least 3 mm is wanted" in problems[0].message


def test_groove_that_is_closed(outcome):
    piece, problems = outcome(case().replace("width: 250, thickness: 18", "width: 200, thickness: 18"))
    assert piece is None
    assert "cannot be slid in from the back: 25 mm of side" in problems[0].message
