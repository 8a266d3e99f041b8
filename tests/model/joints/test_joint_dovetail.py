"""Dovetails against the volumes of trapezoid prisms; the handbooks slope them 1 in 6 to 1 in 8 (from memory)."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

DRAWER = """parts:
  front:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 90, thickness: 20,
     where: {front: -100, bottom: floor, centred: left-right}}
  side:
    {wood: white oak, runs: front-back, thick: left-right, width: 90, thickness: 12,
     where: {left: -150, bottom: floor}, cut to: {front: front.front + LAP, back: 100}, mirror: left-right}
joints:
  - dovetail: {of: side, into: front, tails: 3, pin: 5, half pin: 6, slope: 1:8, MOREcount: 2}
"""


def drawer(lap: float = 0.0, more: str = "") -> str:
    return DRAWER.replace("LAP", str(lap)).replace("MORE", more)


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def tails(number: int, pin: float, half: float, long: float, slope: float) -> float:
    """Area (mm2) of all tails on the face of a board 90 mm wide: trapezoids, widest at the end."""
    wide = (90 - 2 * half - (number - 1) * pin) / number
    return number * (wide - long * slope) * long


@pytest.mark.parametrize(("slope", "ratio"), [("1:6", 1 / 6), ("1:7", 1 / 7), ("1:8", 1 / 8)])
def test_through_dovetail(built, slope, ratio):
    piece = built(drawer().replace("1:8", slope))
    side, front = piece.parts["side left"], piece.parts["front"]
    area = tails(3, 5, 6, 20, ratio)
    assert side.sharp.Volume() == pytest.approx(180 * 90 * 12 + area * 12, rel=1e-9)
    assert front.sharp.Volume() == pytest.approx(300 * 90 * 20 - 2 * area * 12, rel=1e-9)
    assert shares(piece, "side left", "front") < 1e-6
    cheeks = 6 * 20 * (1 + ratio**2) ** 0.5 * 12
    wide = (90 - 12 - 10) / 3
    necks = 3 * (wide - 2 * 20 * ratio)
    # sloping cheeks, the shoulders between the tails, and the inside of every tail on the front's end
    assert glue_area(side, front) == pytest.approx(cheeks + (90 - necks) * 12 + area, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))
    ways = {joint.a: joint.direction for joint in piece.joints}
    # a tail board goes on to the pins sideways
    assert ways["side left"] == pytest.approx((1, 0, 0)) and ways["side right"] == pytest.approx((-1, 0, 0))
    assert all(joint.travel == pytest.approx(12) for joint in piece.joints)


def test_half_blind(built):
    piece = built(drawer(5))
    side, front = piece.parts["side left"], piece.parts["front"]
    area = tails(3, 5, 6, 15, 1 / 8)
    assert side.sharp.Volume() == pytest.approx(180 * 90 * 12 + area * 12, rel=1e-9)
    assert front.sharp.Volume() == pytest.approx(300 * 90 * 20 - 2 * area * 12, rel=1e-9)
    assert not has_errors(check_fit(piece, as_printed=False))
    (pins, _) = [f for f in front.features if f.kind == "pins"]
    assert pins.callouts[0].values["lap"] == pytest.approx(5) and pins.callouts[0].values["deep"] == pytest.approx(15)
    (feature,) = [f for f in side.features if f.kind == "tails"]
    sizes = {s.name: s.value for s in feature.sizes}
    assert sizes == pytest.approx({"half pin": 6, "tail width": 68 / 3, "pin": 5, "tail length": 15})


@settings(max_examples=8, deadline=None)
@given(
    number=st.integers(1, 4),
    pin=st.integers(20, 80).map(lambda n: n / 10),
    lap=st.sampled_from([0.0, 3.0, 6.5]),
    fit=st.sampled_from([0.0, 0.1]),
)
def test_any_dovetail(built, number, pin, lap, fit):
    text = drawer(lap, f"fit: {fit}, ").replace("tails: 3, pin: 5, half pin: 6", f"tails: {number}, pin: {pin}")
    piece = built(text)
    long = 20 - lap
    area = tails(number, pin, pin, long, 1 / 8)
    assert piece.parts["front"].sharp.Volume() == pytest.approx(
        300 * 90 * 20 - 2 * (area + number * fit * long) * 12, rel=1e-9
    )
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(
        180 * 90 * 12 + (area - number * fit * long) * 12, rel=1e-9
    )
    assert shares(piece, "side left", "front") < 1e-6


def test_tail_without_a_neck(outcome):
    piece, problems = outcome(drawer().replace("tails: 3", "tails: 9"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 14)]
    assert "mm at its neck; at least 3 mm is wanted" in problems[0].message


def test_lap_too_thin(outcome):
    piece, problems = outcome(drawer(2))
    assert piece is None
    assert "is 2 mm; at least 3 mm is wanted" in problems[0].message
