"""Box joints against the volumes of slices of a corner."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

BOX = """parts:
  front:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 90, thickness: 15,
     where: {front: -100, bottom: floor, centred: left-right}}
  side:
    {wood: white oak, runs: front-back, thick: left-right, length: 200, width: 90, thickness: 12,
     where: {left: -150, bottom: floor, front: -100}, mirror: left-right}
joints:
  - box joint: {of: side, into: front, fingers: N, fit: FIT, count: 2}
"""


def box(fingers: int = 9, fit: float = 0.0) -> str:
    return BOX.replace("N,", f"{fingers},").replace("FIT", str(fit))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_nine_fingers(built):
    piece = built(box())
    side, front = piece.parts["side left"], piece.parts["front"]
    finger = 15 * 12 * 10
    # five of nine slices stay with the side, four with the front
    assert side.sharp.Volume() == pytest.approx(200 * 90 * 12 - 4 * finger, rel=1e-9)
    assert front.sharp.Volume() == pytest.approx(300 * 90 * 15 - 2 * 5 * finger, rel=1e-9)
    assert shares(piece, "side left", "front") < 1e-6
    # eight walls between fingers, 12 x 15; the inside of every finger lies on the floor of its gap
    assert glue_area(side, front) == pytest.approx(8 * 12 * 15 + 5 * 15 * 10 + 4 * 12 * 10, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))
    for joint in piece.joints:
        assert joint.direction == pytest.approx((0, -1, 0)) and joint.travel == pytest.approx(15)
    (fingers,) = [f for f in side.features if f.kind == "fingers"]
    assert fingers.callouts[0].values["first"] == "finger"
    assert sorted(s.value for s in fingers.sizes) == pytest.approx([10, 15])
    assert [f.callouts[0].values["first"] for f in front.features if f.kind == "fingers"] == ["gap", "gap"]


@settings(max_examples=8, deadline=None)
@given(fingers=st.integers(2, 20), fit=st.integers(0, 5).map(lambda n: n / 10))
def test_any_box_joint(built, fingers, fit):
    piece = built(box(fingers, fit))
    wide, gaps = 90 / fingers, fingers // 2
    # a gap is `fit` wider than its finger; one at an edge of the board has but one wall
    lost = (gaps * (wide + fit) - (fit / 2 if fingers % 2 == 0 else 0)) * 15 * 12
    assert piece.parts["side left"].sharp.Volume() == pytest.approx(200 * 90 * 12 - lost, rel=1e-9)
    assert shares(piece, "side left", "front") < 1e-6
    assert not has_errors(check_fit(piece, as_printed=False))


def test_fingers_too_thin(outcome):
    piece, problems = outcome(box(31))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-fails", 14)]
    assert "is 2.9 mm; at least 3 mm is wanted" in problems[0].message


def test_board_that_runs_past_the_corner(outcome):
    piece, problems = outcome(box().replace("length: 300", "length: 310"))
    assert piece is None
    assert "front runs 5 mm past the corner" in problems[0].message
