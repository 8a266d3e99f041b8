"""The layouts of every example design, sawn by the independent checker; and all counts of parts agree to the piece."""

from collections import Counter
from pathlib import Path

import pytest

from model.board_plan import board_plans
from model.boards.pieces import Wanted
from model.build import build
from model.buying import purchases
from model.cut_list import cut_list, supplied
from model.piece import Piece
from model.set_ups import set_ups
from model.steps import steps
from model.takeoff import lumber, sheet_goods
from plans.resolve import read_design

DESIGNS = sorted((Path(__file__).parents[3] / "designs").glob("*.yaml"))


@pytest.fixture(scope="module", params=DESIGNS, ids=lambda path: path.stem)
def piece(request: pytest.FixtureRequest) -> Piece:
    design, _ = read_design(request.param)
    assert design is not None
    found, _ = build(design)
    assert found is not None
    return found


def wanted_of(piece: Piece, wood: str, stock: str) -> list[Wanted]:
    """Taken from the cut list, as a sawyer would read it."""
    rows = [row for row in cut_list(piece) if (row.wood, row.stock) == (wood, stock) and row.sawn]
    return [
        Wanted(
            " + ".join([row.mark] * blank.gives),
            blank.length,
            blank.width,
            blank.count,
            row.solid or piece.parts[row.item.shown].spec.has_face_grain,
            row.one_board,
        )
        for row in rows
        for blank in row.blanks
    ]


def test_layouts_can_be_sawn(piece, check) -> None:
    plans = board_plans(piece)
    assert plans
    for plan in plans:
        wanted = wanted_of(piece, plan.wood, plan.stock)
        boards = list({laid.board.name: laid.board for laid in plan.layout.boards}.values())
        assert not plan.layout.missing
        check(plan.layout, wanted, boards, plan.rules)


def test_parts_add_up_everywhere(piece) -> None:
    """Steps, drawings, cut list, blanks, layouts, lumber and purchases: one count of the parts of the piece."""
    made = {name for row in cut_list(piece) for name in (*row.item.parts, *row.item.mirrored)}
    others = {name for item in supplied(piece) for name in (*item.parts, *item.mirrored)}
    assert made | others == set(piece.parts) and not made & others
    added = Counter(name for step in steps(piece, piece.stages) for name in step.added)
    assert added == Counter(list(piece.parts))
    assert sum(item.quantity for item in piece.items) == len(piece.parts)

    sawn = [row for row in cut_list(piece) if row.sawn]
    for row in sawn:
        assert sum(blank.count * blank.gives for blank in row.blanks) == row.item.quantity
        assert row.rough_length >= row.first_length - 1e-6
        assert row.on_edge or row.rough_width >= row.first_width - 1e-6
    laid = Counter[str]()
    for plan in board_plans(piece):
        for board in plan.layout.boards:
            for placed in board.placed:
                laid.update(placed.mark.split(" + ") * board.count)
    assert laid == Counter({row.mark: row.item.quantity for row in sawn if row.stock and (row.solid or row.sheet)})

    bought = sum(row.pieces for row in (*lumber(piece), *sheet_goods(piece)))
    assert bought == sum(row.item.quantity for row in sawn if row.solid or row.sheet)
    for purchase in purchases(piece):
        assert sum(one.count for one in purchase.boards) == purchase.plan.layout.used


def test_set_ups_use_every_hole_and_joint_once(piece) -> None:
    """As many settings as there is work on the parts, both hands and all copies counted."""
    holes = {"hole", "peg hole", "dowel hole", "pilot hole", "fitting hole", "screw hole"}
    bored = sum(one.cuts for one in set_ups(piece) if one.setting.kind == "bore")
    drilled = 0
    for item in piece.items:
        if piece.parts[item.shown].spec.supplied:
            continue
        for feature in piece.parts[item.shown].features:
            if feature.operation is not None and feature.operation.name in holes:
                values = feature.operation.settings
                wider = any(values.get(key) is not None for key in ("plugged", "sunk", "step"))
                drilled += int(str(values["count"])) * (1 + wider) * item.quantity
            elif feature.operation is not None and "recess" in feature.operation.name:
                drilled += ("diameter" in feature.operation.settings) * item.quantity
    assert bored == drilled
