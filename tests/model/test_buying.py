"""What is bought: the boards of the layouts, measured by the published rule, and the cost by hand."""

from decimal import Decimal

import pytest

from model.board_plan import board_plans
from model.buying import purchase_of, purchases
from model.cost import estimate
from model.cut_list import cut_list

SHELF = """parts:
  shelf:
    {{wood: white oak, stock: {stock}, runs: left-right, thick: up-down, length: 900, width: 150, thickness: 1/2 in,
     where: {{bottom: floor, centred: [left-right, front-back]}}, repeat: {{along: front-back, count: 4, gap: 10}}}}
  back:
    {{sheet: MDF, stock: 6 mm, runs: left-right, thick: front-back, length: 900, width: 400,
     where: {{bottom: floor, front: 600, centred: left-right}}}}
boards:
  - {{stock: {stock}, width: 8 in, length: 10 ft}}
"""
PRICES = """prices:
  date: 2026-11-02
  currency: EUR
  wood: [{{wood: White Oak, stock: {stock}, {price}}}]
  other: [{{item: oil, count: 3, each: 7.99}}]
"""


@pytest.mark.parametrize(
    ("stock", "feet", "thick"),
    [("4/4", 2 * (8 * 120 / 144), 1.0), ("8/4", 2 * 2 * (8 * 120 / 144), 2.0), ("3/4", 2 * (8 * 120 / 144), 0.75)],
)
def test_boards_of_the_layout_by_the_board_foot(built, stock, feet, thick) -> None:
    """8 in by 10 ft is 6 2/3 board feet at 1 in, and under 1 in counts as 1 in (NHLA). Three shelves of 925 mm go on
    a board of 3048 less its trims, so that four take two."""
    purchase = purchase_of(built(SHELF.format(stock=stock)), "white oak", stock)
    assert purchase is not None and purchase.count == 2
    assert purchase.board_feet == pytest.approx(feet)
    assert purchase.cubic_metres == pytest.approx(2 * 0.2032 * 3.048 * thick * 0.0254)


def test_sheets_are_counted_by_the_sheet(built) -> None:
    piece = built(SHELF.format(stock="4/4"))
    purchase = purchase_of(piece, "MDF", "6 mm")
    assert purchase is not None and purchase.count == 1 and purchase.board_feet is None
    assert len(purchases(piece)) == len(board_plans(piece)) == 2


@pytest.mark.parametrize(
    ("price", "amount", "unit", "cost"),
    [
        ("per board foot: 9.30", "13.4", "board foot", "124.62"),  # 13 1/3 board feet, up to the next tenth
        ("per board: 61.5", "2", "board", "123.00"),
        ("per cubic metre: 4100", "0.0315", "cubic metre", "129.15"),  # 0.031464 m3, up
    ],
)
def test_cost_by_hand(built, price, amount, unit, cost) -> None:
    found = estimate(built(SHELF.format(stock="4/4") + PRICES.format(stock="4/4", price=price)))
    assert found is not None
    wood, oil = found.rows
    assert (wood.amount, wood.unit, wood.cost) == (Decimal(amount), unit, Decimal(cost))
    assert oil.cost == Decimal("23.97")
    assert found.total == Decimal(cost) + Decimal("23.97")
    assert found.unpriced == ("MDF, 6 mm",)


HOUSE = """house:
  prices:
    date: 2026-05-04
    currency: EUR
    wood: [{wood: white oak, stock: 4/4, per board: 40}]
    sheets: [{sheet: MDF, stock: 6 mm, each: 22.5}]
    other: [{item: Oil, each: 8.01}, {item: varnish, each: 19}]
"""


def test_the_house_prices_what_the_design_does_not(built) -> None:
    """By hand: two boards at the design's own price, the sheet and the oil at those of the house, whose varnish nobody
    asked for; both days are told."""
    own = PRICES.format(stock="4/4", price="per board: 50").replace(", each: 7.99", "")
    found = estimate(built(SHELF.format(stock="4/4") + own + HOUSE))
    assert found is not None
    assert [(row.what, row.cost) for row in found.rows] == [
        ("white oak, 4/4", Decimal("100.00")),
        ("MDF, 6 mm", Decimal("22.50")),
        ("oil", Decimal("24.03")),
    ]
    assert [str(day) for day in found.dates] == ["2026-05-04", "2026-11-02"] and not found.unpriced


def test_one_table_for_all_designs(built) -> None:
    """With no prices of its own a design is estimated by the house's, its boards and nothing else."""
    found = estimate(built(SHELF.format(stock="4/4") + HOUSE))
    assert found is not None and found.total == Decimal("102.50")
    assert estimate(built(SHELF.format(stock="8/4").replace("MDF, stock: 6 mm", "MDF, stock: 12 mm") + HOUSE)) is None


def test_no_prices_no_estimate(built) -> None:
    assert estimate(built(SHELF.format(stock="4/4"))) is None


def test_every_piece_of_the_cut_list_lies_on_a_board(bench) -> None:
    """Counted from the layouts: a blank that gives two counts for two."""
    laid: dict[str, int] = {}
    for plan in board_plans(bench):
        assert not plan.layout.missing
        for board in plan.layout.boards:
            for placed in board.placed:
                for mark in placed.mark.split(" + "):
                    laid[mark] = laid.get(mark, 0) + board.count
    assert laid == {row.mark: row.item.quantity for row in cut_list(bench)}
