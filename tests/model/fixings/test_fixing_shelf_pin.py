"""Shelf pins: rows of holes from where the shelf stands, a pin under each corner."""

import math

import numpy as np
import pytest

from model.checks import check_fit
from plans.problems import has_errors

CASE = """parts:
  upright:
    {wood: sugar maple, runs: up-down, thick: left-right, length: 600, width: 250, thickness: 18,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  shelf:
    {wood: sugar maple, runs: left-right, thick: up-down, length: 562, width: 240, thickness: 18,
     where: {bottom: HIGH, centred: [left-right, front-back]}}
fixings:
  - shelf pin: {under: shelf, into: upright, size: 5 mm, inset: 40, spacing: 32, up: 3, down: 2, count: 4}
"""


def test_rows_and_pins(built):
    piece = built(CASE.replace("HIGH", "300"))
    holes = 2 * (3 + 1 + 2) * math.pi * 2.5**2 * 10
    for name in ("upright left", "upright right"):
        assert 600 * 250 * 18 - piece.parts[name].sharp.Volume() == pytest.approx(holes)
    points = np.array([point for fixing in piece.fixings for point in fixing.points])
    # close under the shelf: half a pin below it; 40 mm from its edges at +-120; on the uprights' inner faces at +-282
    assert points[:, 2] == pytest.approx(np.full(4, 300 - 2.5))
    assert sorted({round(abs(x), 6) for x in points[:, 0]}) == [282] and sorted(set(points[:, 1].round(6))) == [-80, 80]
    assert not has_errors(check_fit(piece, as_printed=False))
    spacings = {s.value for f in piece.parts["upright left"].features for s in f.sizes if s.name.endswith("spacing")}
    assert spacings == {32.0}


def test_a_row_that_runs_out_of_the_upright(outcome):
    piece, problems = outcome(CASE.replace("HIGH", "60"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert "at least 2 mm" in problems[0].message
