"""Mitres against the volumes of triangles and parallelograms."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from model.takeoff import hardware
from plans.problems import has_errors

FRAME = """parts:
  stile:
    {wood: white oak, runs: up-down, thick: front-back, length: 400, width: STILE, thickness: 20,
     where: {bottom: floor, left: -150, centred: front-back}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: RAIL, thickness: 20,
     where: {top: stile.top, centred: [left-right, front-back]}}
joints:
  - mitre: {of: rail, into: stile, MOREcount: 2}
"""
BOX = """parts:
  front:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 90, thickness: 18,
     where: {front: -100, bottom: floor, centred: left-right}}
  side:
    {wood: white oak, runs: front-back, thick: left-right, length: 200, width: 90, thickness: 18,
     where: {left: -150, bottom: floor, front: -100}, mirror: left-right}
joints:
  - mitre: {of: side, into: front, MOREcount: 2}
"""


def frame(more: str = "", stile: float = 50, rail: float = 50) -> str:
    return FRAME.replace("MORE", more).replace("STILE", str(stile)).replace("RAIL", str(rail))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


@settings(max_examples=6, deadline=None)
@given(stile=st.integers(20, 120), rail=st.integers(20, 120))
def test_flat_mitre(built, stile, rail):
    piece = built(frame("", stile, rail))
    top, left = piece.parts["rail"], piece.parts["stile left"]
    # each loses half of the rectangle in which they cross
    assert top.sharp.Volume() == pytest.approx(300 * rail * 20 - stile * rail * 20, rel=1e-9)
    assert left.sharp.Volume() == pytest.approx(400 * stile * 20 - stile * rail * 20 / 2, rel=1e-9)
    assert shares(piece, "rail", "stile left") < 1e-6
    assert glue_area(top, left) == pytest.approx(math.hypot(stile, rail) * 20, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))
    # the long points are at the outside of the frame
    assert top.length == pytest.approx((-150, 150))
    ends = [f.callouts[0].values for f in top.features if f.kind == "mitre"]
    assert [v["mitre"] for v in ends] == pytest.approx([math.degrees(math.atan2(stile, rail))] * 2, abs=1e-5)
    assert [v["tilt"] for v in ends] == pytest.approx([0, 0], abs=1e-5)


def test_box_mitre(built):
    piece = built(BOX.replace("MORE", ""))
    assert piece.parts["side left"].sharp.Volume() == pytest.approx((200 - 9) * 90 * 18, rel=1e-9)
    assert piece.parts["front"].sharp.Volume() == pytest.approx((300 - 18) * 90 * 18, rel=1e-9)
    (values,) = [f.callouts[0].values for f in piece.parts["side left"].features if f.kind == "mitre"]
    assert values["tilt"] == pytest.approx(45)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_splined_frame(built):
    piece = built(frame("spline: {thick: 4, wide: 30}, "))
    # in each part the slot is a parallelogram as long as the mitre, and half as wide as the spline
    lost = math.hypot(50, 50) * 15 * 4
    assert piece.parts["stile left"].sharp.Volume() == pytest.approx(400 * 50 * 20 - 25 * 50 * 20 - lost, rel=1e-9)
    assert [(row.what, row.count) for row in hardware(piece)] == [("spline", 2)]
    assert hardware(piece)[0].values == {"thick": 4, "wide": 30, "long": 70.71, "wood": "white oak"}
    assert not has_errors(check_fit(piece, as_printed=False))


def test_splined_box(built):
    piece = built(BOX.replace("MORE", "spline: {thick: 3, wide: 10}, "))
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(191 * 90 * 18 - 3 * 5 * 90, rel=1e-9)
    assert hardware(piece)[0].values == {"thick": 3, "wide": 10, "long": 90, "wood": "white oak"}
    assert not has_errors(check_fit(piece, as_printed=False))


@settings(max_examples=6, deadline=None)
@given(number=st.integers(1, 4), deep=st.integers(30, 220).map(lambda n: n / 10))
def test_keyed_box(built, number, deep):
    piece = built(BOX.replace("MORE", f"keys: {{number: {number}, thick: 3, deep: {deep}}}, "))
    # the slot is a right-angled corner `deep` from its arris: half of it in each part
    lost = number * 3 * deep**2 / 2
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(191 * 90 * 18 - lost, rel=1e-9)
    assert [(row.what, row.count) for row in hardware(piece)] == [("key", 2 * number)]
    assert shares(piece, "side left", "front") < 1e-6


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (BOX.replace("MORE", "keys: {number: 2, thick: 3, deep: 24}, "), "is 1.46 mm; at least 3 mm is wanted"),
        (BOX.replace("MORE", "keys: {number: 20, thick: 3, deep: 10}, "), "between the keys of side left is 1.43 mm"),
        (BOX.replace("MORE", "spline: {thick: 3, wide: 24}, "), "the wall beside the spline"),
        (frame("spline: {thick: 16, wide: 24}, "), "is 2 mm; at least 3 mm is wanted"),
        (frame().replace("length: 300", "length: 320"), "rail runs 10 mm past the corner"),
    ],
)
def test_outside_its_limits(outcome, text, said):
    piece, problems = outcome(text)
    assert piece is None
    assert {(p.code, p.place.line) for p in problems} == {("joint-fails", 14)}
    assert said in problems[0].message
