"""How the design's own words on boards and saw reach the layouts."""

import pytest

from model.board_plan import board_plans

PLAN = """parts:
  shelf:
    {{{of}, runs: left-right, thick: up-down, length: {length}, width: {width},{thick}
     where: {{bottom: floor, centred: [left-right, front-back]}},
     repeat: {{along: front-back, count: {count}, gap: 10}}}}
"""
OAK = {"of": "wood: white oak, stock: 4/4", "thick": " thickness: 20,"}
BOARDS = "boards: [{{stock: 4/4, width: 200, length: 2000{more}}}]\n"


def plan(built, text: str):
    (found,) = board_plans(built(text))
    return found


def test_allowances_and_trims_are_the_maker_s_own(built) -> None:
    """Three of 640 and two saw cuts of 3 fill 2000 less two trims of 37; a wider kerf, and only two go on a board."""
    text = PLAN.format(length=640, width=180, count=3, **OAK) + BOARDS.format(more="")
    saw = "saw: {{kerf: {kerf}, end trim: 37, end allowance: 0, edge allowance: 0}}\n"
    assert plan(built, text + saw.format(kerf=3)).layout.used == 1
    assert plan(built, text + saw.format(kerf=4)).layout.used == 2


def test_a_knot_that_takes_part_of_the_width_leaves_the_rest(built) -> None:
    """A strip of 60 beside a knot that takes 100 of 200 along the whole board; with the knot all across, none."""
    text = PLAN.format(length=1800, width=60, count=1, **OAK)
    for across, missing in (("across: {from: 0, to: 100}", ()), ("", (("A", 1),))):
        knot = f", count: 1, defects: [{{from: 500, to: 600, {across}}}]".replace(", }", "}")
        assert plan(built, text + BOARDS.format(more=knot)).layout.missing == missing


def test_what_is_on_hand_is_used_first(built) -> None:
    text = PLAN.format(length=800, width=150, count=3, **OAK)
    text += "boards: [{stock: 4/4, width: 200, length: 1000, on hand: yes}, {stock: 4/4, width: 200, length: 2000}]\n"
    found = plan(built, text)
    assert found.layout.used == 2 and found.layout.bought == 1


@pytest.mark.parametrize(("sheet", "turned"), [("MDF", True), ("hardwood plywood", False)])
def test_only_what_has_no_face_grain_is_turned(built, sheet, turned) -> None:
    """1250 is more than any sheet is wide, so that it must lie along the sheet: across the grain of plywood, which is
    refused, and no matter on MDF."""
    nominal = {"MDF": "18 mm", "hardwood plywood": "3/4"}[sheet]
    of = {"of": f"sheet: {sheet}, stock: {nominal}", "thick": ""}
    found = plan(built, PLAN.format(length=1000, width=1250, count=1, **of))
    assert any(p.turned for laid in found.layout.boards for p in laid.placed) == turned
    assert bool(found.layout.missing) != turned


def test_matched_parts_lie_on_one_board(built) -> None:
    """Three that would go two and one on short boards lie together on the long one."""
    one = PLAN.format(length=600, width=150, count=3, **OAK).replace("stock: 4/4,", "stock: 4/4, from one board: a,")
    text = one + "boards: [{stock: 4/4, width: 160, length: 1400}, {stock: 4/4, width: 160, length: 2400}]\n"
    found = plan(built, text)
    (laid,) = found.layout.boards
    assert laid.board.length == 2400 and len(laid.placed) == 3
