"""Magnets: a disc in each part, opposite each other."""

import math

import numpy as np
import pytest

from model.checks import check_fit
from model.takeoff import hardware

PAIR = """parts:
  stile:
    {wood: black cherry, runs: up-down, thick: front-back, length: 500, width: 40, thickness: 20,
     where: {bottom: floor, left: 0, front: 0}}
  door:
    {wood: black cherry, runs: up-down, thick: front-back, length: 480, width: 300, thickness: 18,
     where: {bottom: 10, left: 10, back: stile.front - GAP}}
fixings:
  - magnet: {of: door, to: stile, size: 10 × 3 mm, inset: 40, per place: 2}
"""


@pytest.mark.parametrize("gap", [0, 1.5])
def test_a_disc_in_each_part(built, gap):
    text = PAIR.replace("GAP", str(gap))
    if gap:
        text = text.replace("per place: 2", "per place: 2, count: 4")
    piece = built(text)
    hole = math.pi * 5**2 * 3
    assert 500 * 40 * 20 - piece.parts["stile"].sharp.Volume() == pytest.approx(2 * hole)
    assert 480 * 300 * 18 - piece.parts["door"].sharp.Volume() == pytest.approx(2 * hole)
    points = np.array(piece.fixings[0].points)
    # each pair on one line, the faces of the discs as far apart as the parts
    assert points[:2, [0, 2]] == pytest.approx(points[2:, [0, 2]]) and np.ptp(points[:, 1]) == pytest.approx(
        gap, abs=1e-6
    )
    assert sorted(points[:2, 2]) == pytest.approx([10 + 40, 490 - 40])
    assert [row.count for row in hardware(piece)] == [4]
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}


def test_door_too_thin_for_the_disc(outcome):
    piece, problems = outcome(PAIR.replace("GAP", "0").replace("thickness: 18", "thickness: 4.5"))
    assert piece is None and [p.code for p in problems] == ["fixing-fails"]
    assert "at least 2 mm" in problems[0].message
