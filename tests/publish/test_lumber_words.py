"""The lumber page: money as one writes it, boards as one asks for them, and what to look for in them."""

from decimal import Decimal

import pytest

from model.buying import purchases
from model.cost import CostRow
from model.cut_list import cut_list
from model.piece import Piece
from model.takeoff import lumber
from publish.edition import Edition
from publish.words.cost import amount_words, money
from publish.words.lumber import boards_words, look_for


@pytest.fixture
def bench_edition(bench_piece: Piece) -> Edition:
    return Edition(bench_piece, (), None, bench_piece.design.units("inch"))  # type: ignore[arg-type]


def test_money() -> None:
    assert money("$", Decimal("1234.5")) == "$1,234.50"
    assert money("EUR", Decimal("0.1")) == "0.10 EUR"


@pytest.mark.parametrize(
    ("amount", "unit", "said"),
    [("16.0", "board foot", "16 board feet"), ("1", "sheet", "1 sheet"), ("20", "", "20"), ("2", "board", "2 boards")],
)
def test_amounts(amount: str, unit: str, said: str) -> None:
    assert amount_words(CostRow("", Decimal(amount), unit, Decimal(1))) == said


def test_the_boards_asked_for_are_those_of_the_layouts(bench_edition: Edition) -> None:
    for purchase in purchases(bench_edition.piece):
        said = boards_words(bench_edition, purchase)
        assert sum(int(one.split(" of ")[0]) for one in said.split(": ")[1].split(", ")) == purchase.count


def test_four_alike_faces_ask_for_rift_sawn_wood(bench_edition: Edition) -> None:
    legs = [row for row in cut_list(bench_edition.piece) if row.item.name == "leg"]
    (row,) = [row for row in lumber(bench_edition.piece) if row.stock == "8/4"]
    said = look_for(bench_edition, row, legs)
    assert "Rift-sawn for C" in said and "45°" in said and "Straight grain" in said
