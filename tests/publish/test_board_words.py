"""What a layout says: what each cut frees, what is left over, and how near it is to the least possible."""

from collections import Counter

import pytest

from model.board_plan import StockPlan, board_plans
from model.boards.boards import lay_out_boards
from model.boards.pieces import Board, Layout, Rules, Wanted
from model.piece import Piece
from publish.edition import Edition
from publish.words.boards import cut_words, offcut_words, plan_summary, reading_words, short_rips, slant_words


@pytest.fixture(params=["inch", "mm"])
def bench_edition(request: pytest.FixtureRequest, bench_piece: Piece) -> Edition:
    return Edition(bench_piece, (), None, bench_piece.design.units(request.param))  # type: ignore[arg-type]


def test_every_cut_says_what_it_frees(bench_edition: Edition) -> None:
    """Every part is freed by some cut that names it, except where it is what the last cut leaves over."""
    for plan in board_plans(bench_edition.piece):
        for laid in plan.layout.boards:
            said = [cut_words(bench_edition, laid, cut) for cut in laid.cuts]
            assert [words for words in said if words.endswith(": trim")] == said[:2]  # the two ends
            named = {mark.split("× ")[-1] for words in said for mark in words.split(": ")[1].split(", ")}
            assert named >= {part.mark for part in laid.placed}


def plan_of(layout: Layout) -> StockPlan:
    return StockPlan("white oak", "4/4", layout, Rules())


def test_a_proven_layout_says_that_fewer_is_impossible(bench_edition: Edition) -> None:
    """Five parts as long as the board and more than half as wide: five boards, and four cannot do."""
    layout = lay_out_boards([Wanted("A", 900, 120, 5)], [Board("b", 1000, 200)], Rules())
    assert layout.proven
    _, said = plan_summary(bench_edition, plan_of(layout))
    assert said.startswith("Five boards: fewer than five is impossible")


def test_parts_that_fit_nowhere_are_named(bench_edition: Edition) -> None:
    layout = lay_out_boards([Wanted("A", 3000, 120, 2)], [Board("b", 1000, 200)], Rules())
    _, said = plan_summary(bench_edition, plan_of(layout))
    assert "2 × A" in said


def test_offcuts_are_counted(bench_edition: Edition) -> None:
    for plan in board_plans(bench_edition.piece):
        kept = Counter[float]()
        for rest, count in plan.layout.offcuts:
            kept[rest.length] += count
        said = offcut_words(bench_edition, plan.layout)
        assert ("No offcut" in said) == (not kept)


def test_the_line_between_two_legs_is_told_from_the_edge(bench_edition: Edition) -> None:
    """It crosses the middle of the blank, and rises as the taper falls: 5/8 in over the length less 4 in."""
    (plan,) = [plan for plan in board_plans(bench_edition.piece) if plan.slants]
    (slant,) = plan.slants.values()
    length = next(part.over_all[0] for part in bench_edition.piece.parts.values() if part.kind == "leg")
    assert slant == pytest.approx(0.625 * 25.4 / (length - 4 * 25.4) * length, rel=0.02)
    width = next(part.width for laid in plan.layout.boards for part in laid.placed)
    low, high = ((width + way * slant) / 2 for way in (-1, 1))
    said = slant_words(bench_edition, plan)
    assert f"from {bench_edition.measure(low)} above" in said and f"to {bench_edition.measure(high)} at" in said


def test_what_is_on_hand_is_not_to_buy(bench_edition: Edition) -> None:
    """A split end cut off: two parts from the rest of the board; a third part takes a board that is bought."""
    had = Board("had", 1000, 200, 1, ((0.0, 100.0),), on_hand=True)
    layout = lay_out_boards([Wanted("A", 400, 120, 2)], [had], Rules())
    _, said = plan_summary(bench_edition, plan_of(layout))
    assert said.startswith("Nothing to buy: one board on hand holds all the parts")
    assert "Crossed out are defects" in reading_words(bench_edition, [plan_of(layout)])
    (laid,) = layout.boards
    words = [cut_words(bench_edition, laid, cut) for cut in laid.cuts]
    assert sum(one.endswith(": defect") for one in words) == 1
    layout = lay_out_boards([Wanted("A", 400, 120, 3)], [had, Board("b", 1000, 200)], Rules())
    _, said = plan_summary(bench_edition, plan_of(layout))
    assert said.startswith("One board to buy, beside one on hand: ")


def test_short_pieces_are_not_ripped_on_a_table_saw(bench_edition: Edition) -> None:
    """Common practice: nothing shorter than 12 in, in round millimetres 310. Four of 100 mm are ripped narrower."""
    least = {"inch": "12 in", "mm": "310 mm"}[bench_edition.units.name]
    parts = [Wanted("A", 900, 60), Wanted("B", 100, 40, 4)]
    (laid,) = lay_out_boards(parts, [Board("b", 1500, 60)], Rules(kerf=3)).boards
    rips = [cut.number for cut in laid.cuts if cut.direction == "rip" and cut.length < 304.8]
    assert len(rips) == 4
    said = short_rips(bench_edition, laid)
    assert f"cuts {rips[0]} to {rips[-1]} rip" in said and f"shorter than {least}." in said
    (laid,) = lay_out_boards(
        [Wanted("A", 900, 60), Wanted("B", 100, 40, 2)], [Board("b", 1500, 60)], Rules(kerf=3)
    ).boards
    rips = [cut.number for cut in laid.cuts if cut.direction == "rip" and cut.length < 304.8]
    assert f"cuts {rips[0]} and {rips[1]} rip" in short_rips(bench_edition, laid)
    (long,) = lay_out_boards([Wanted("A", 900, 50)], [Board("b", 1000, 60)], Rules()).boards
    assert short_rips(bench_edition, long) == ""
