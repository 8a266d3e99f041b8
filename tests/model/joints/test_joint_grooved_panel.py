"""Panels that float in a frame, against the volumes of boxes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.overlap import common_volume
from model.sequence import assembly
from plans.problems import has_errors

DOOR = """parts:
  stile:
    {wood: white oak, runs: up-down, thick: front-back, length: 500, width: 50, thickness: 20,
     where: {bottom: floor, left: -200, centred: front-back}, mirror: left-right}
  top rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 50, thickness: 20,
     where: {top: stile.top, centred: front-back}, cut to: {left: stile, right: stile}}
  bottom rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 70, thickness: 20,
     where: {bottom: floor, centred: front-back}, cut to: {left: stile, right: stile}}
  panel:
    {wood: white oak, runs: up-down, thick: front-back, width: 300, thickness: 12,
     where: {centred: [left-right, front-back]}, cut to: {top: top rail, bottom: bottom rail}}
joints:
TENONS  - grooved panel: {of: panel, into: [stile, top rail, bottom rail], deep: 9, room: 2, MOREcount: 4}
"""
TENONS = """  - mortise and tenon: {of: top rail, into: stile, thick: 6, long: 30, fit: 0, shoulders: {top: 10}}
  - mortise and tenon: {of: bottom rail, into: stile, thick: 6, long: 30, fit: 0, shoulders: {bottom: 10}}
"""


def door(more: str = "", tenons: str = "") -> str:
    return DOOR.replace("MORE", more).replace("TENONS", tenons)


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_panel_floats(built):
    piece = built(door("fit: 0, "))
    # 300 x 380 shows; 7 of the 9 mm of each groove hold it
    assert piece.parts["panel"].sharp.Volume() == pytest.approx(314 * 394 * 12, rel=1e-9)
    assert piece.parts["stile left"].sharp.Volume() == pytest.approx(500 * 50 * 20 - (394 + 4) * 9 * 12, rel=1e-9)
    assert piece.parts["top rail"].sharp.Volume() == pytest.approx(300 * 50 * 20 - 300 * 9 * 12, rel=1e-9)
    for other in ("stile left", "stile right", "top rail", "bottom rail"):
        assert shares(piece, "panel", other) < 1e-6
    assert not any(joint.glued for joint in piece.joints)
    assert {joint.direction for joint in piece.joints} == {(-1, 0, 0), (1, 0, 0), (0, 0, 1), (0, 0, -1)}
    assert all(joint.travel == pytest.approx(7) for joint in piece.joints)


def test_thinned_edge_and_tenoned_rails(built):
    piece = built(door("fit: 0, thick: 6, flush: back, ", TENONS))
    assert piece.parts["panel"].sharp.Volume() == pytest.approx(300 * 380 * 12 + (314 * 394 - 300 * 380) * 6, rel=1e-9)
    # the groove, from 0 to 6 behind the middle, is ploughed on through the tenons, which lie 3 either side of it
    tenons = 2 * 30 * 6 * 40 - 2 * 30 * 9 * 3
    assert piece.parts["top rail"].sharp.Volume() == pytest.approx(300 * 50 * 20 - 300 * 9 * 6 + tenons, rel=1e-9)
    (groove,) = [f for f in piece.parts["top rail"].features if f.kind == "groove"]
    assert not [s for s in groove.sizes if s.along == "left-right" and s.role == "position"]
    assert not has_errors(check_fit(piece, as_printed=False))
    # the last step closes the frame round the panel
    turns = {name: move.turn for move in assembly(piece)[-1].moves for name in move.parts}
    assert turns["panel"] < turns["top rail"] and turns["panel"] < turns["stile left"] == turns["stile right"]


def test_bottom_slid_in_from_behind(built):
    piece = built(door("slides in from: bottom, ").replace("top rail, bottom rail]", "top rail]").replace("4}", "3}"))
    assert {joint.direction for joint in piece.joints} == {(0, 0, 1)}
    assert all(joint.travel == pytest.approx(380) for joint in piece.joints)


@settings(max_examples=8, deadline=None)
@given(
    deep=st.integers(40, 200).map(lambda n: n / 10),
    share=st.integers(0, 9).map(lambda n: n / 10),
    thick=st.integers(20, 120).map(lambda n: n / 10),
)
def test_any_panel(built, deep, share, thick):
    room = round(deep * share, 3)
    piece = built(door(f"fit: 0, thick: {thick}, ").replace("deep: 9, room: 2", f"deep: {deep}, room: {room}"))
    held = deep - room
    edge = ((300 + 2 * held) * (380 + 2 * held) - 300 * 380) * thick
    assert piece.parts["panel"].sharp.Volume() == pytest.approx(300 * 380 * 12 + edge, rel=1e-9)
    lost = (380 + 2 * deep) * deep * thick
    assert piece.parts["stile left"].sharp.Volume() == pytest.approx(500 * 50 * 20 - lost, rel=1e-9)
    assert shares(piece, "panel", "stile left") < 1e-6


def test_frame_too_narrow(outcome):
    piece, problems = outcome(door().replace("deep: 9", "deep: 48"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 20)]
    assert "leaves 2 mm of wall; at least 3 mm is wanted" in problems[0].message
