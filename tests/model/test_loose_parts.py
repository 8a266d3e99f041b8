"""What lies in a piece without a joint or a fixing is put in too, in a step of its own (a fact of the trade)."""

import pytest

from model.sequence import assembly

TRAY = """parts:
  side:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 60, thickness: 12,
     where: {bottom: floor, front: -100, centred: left-right},
     repeat: {along: front-back, count: 2, spacing: 188, from: front}}
  end:
    {wood: white oak, runs: front-back, thick: left-right, width: 60, thickness: 12,
     where: {bottom: floor, left: -150}, length: 176, repeat: {along: left-right, count: 2, spacing: 288, from: left}}
  ledge:
    {wood: white oak, runs: left-right, thick: front-back, length: 276, width: 10, thickness: 10,
     where: {bottom: floor, front: side.back, centred: left-right}}
  bottom:
    {sheet: birch plywood, stock: 6 mm, runs: left-right, thick: up-down, length: 270, width: 170,
     where: {bottom: ledge.top, left: -135, front: -85}}
  cover:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 200, thickness: 10,
     where: {bottom: side.top, left: -150, front: -100}}
joints:
  - glued face: {of: cover, to: side}
  - glued face: {of: end, to: side}
  - glued face: {of: ledge, to: side, count: 1}
"""


NAMED = TRAY + "assemblies:\n  tray: {parts: [side, end, ledge, bottom]}\n"


@pytest.mark.parametrize("text", [TRAY, NAMED])
def test_a_loose_bottom_goes_in_by_itself(built, text):
    piece = built(text)
    moves = [move for stage in assembly(piece) for move in stage.moves]
    (bottom,) = [move for move in moves if move.parts == ("bottom",)]
    assert bottom.path[-1].direction == pytest.approx((0, 0, 1))
    moved = {name for move in moves for name in move.parts}
    based = {name for stage in assembly(piece) for name in stage.base}
    assert moved | based == set(piece.parts)
