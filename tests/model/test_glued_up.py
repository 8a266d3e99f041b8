"""Parts made of boards, against sums done by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.board_plan import board_plans
from model.cut_list import cut_list
from model.glued_up import part_boards
from model.steps import steps
from model.takeoff import glue_total, lumber

PANEL = """parts:
  top:
    {wood: white oak, stock: 4/4, glued up: {GLUED}, runs: left-right, thick: up-down, length: 800, width: 400,
     thickness: 40, where: {bottom: floor, centred: [left-right, front-back]}CUT}
"""


def panel(glued: str, cut: str = "") -> str:
    return PANEL.replace("GLUED", glued).replace("CUT", cut)


def test_boards_edge_to_edge(built):
    piece = built(panel("joined: edge to edge, sizes: [90, 110, 120, 80], rings: alternating"))
    whole, *boards = cut_list(piece)
    assert (whole.mark, whole.width, whole.sawn) == ("A", pytest.approx(400), False)
    assert [row.mark for row in boards] == ["A1", "A2", "A3", "A4"]
    assert [row.width for row in boards] == pytest.approx([90, 110, 120, 80])
    assert all(row.length == pytest.approx(800) and row.thickness == pytest.approx(40) for row in boards)
    # 6 mm of width, 25 of length, then up to 5 mm (common practice)
    assert [row.rough_width for row in boards] == pytest.approx([100, 120, 130, 90])
    assert [row.board.heart_up for row in boards] == [True, False, True, False]
    # three joints, 40 x 800 each
    assert glue_total(piece) == pytest.approx(3 * 40 * 800)
    (bought,) = lumber(piece)
    assert (bought.pieces, bought.widest, bought.longest) == (4, pytest.approx(130), pytest.approx(825))
    (plan,) = board_plans(piece)
    laid = [placed.mark for board in plan.layout.boards for placed in board.placed for _ in range(board.count)]
    assert sorted(laid) == ["A1", "A2", "A3", "A4"]
    assert [step.kind for step in steps(piece, ())][:3] == ["mill", "glue up", "size"]


def test_layers_face_to_face(built):
    piece = built(panel("joined: face to face, boards: 2"))
    _, *layers = cut_list(piece)
    assert [row.thickness for row in layers] == pytest.approx([20, 20])
    assert all(row.width == pytest.approx(400) for row in layers)
    assert all(row.board.heart_up is None for row in layers)
    assert glue_total(piece) == pytest.approx(400 * 800)


def test_part_of_one_piece(built):
    piece = built(panel("X").replace("glued up: {X}, ", ""))
    assert [(row.mark, row.sawn) for row in cut_list(piece)] == [("A", True)]
    assert glue_total(piece) == 0


def test_outer_board_takes_what_a_cut_leaves_of_it(built):
    piece = built(panel("joined: edge to edge, boards: 4", ", cut to: {back: 150}"))
    assert [board.width for board in part_boards(piece.parts["top"])] == pytest.approx([100, 100, 100, 50])


@settings(max_examples=10, deadline=None)
@given(sizes=st.lists(st.integers(20, 200), min_size=2, max_size=8))
def test_boards_come_to_the_whole(built, sizes):
    text = panel(f"joined: edge to edge, sizes: {sizes}").replace("width: 400", f"width: {sum(sizes)}")
    boards = part_boards(built(text).parts["top"])
    assert [board.width for board in boards] == pytest.approx(sizes)
    assert [board.number for board in boards] == list(range(1, len(sizes) + 1))
