"""Boards as they are drawn: every mark is there, none is too small to read, none runs into another."""

from collections import Counter
from itertools import combinations
from random import Random

import pytest

from model.board_plan import board_plans
from model.boards.boards import lay_out_boards
from model.boards.pieces import Board, LaidBoard, Rules, Wanted
from model.piece import Piece
from publish.board_drawing import drawn_board
from publish.drawing.box import Segment, segment_meets_box
from publish.drawing.records import Label, Line, Record
from publish.edition import Edition

SCALE = 250 / 3050  # a board of 10 ft across a page


def edition_of(piece: Piece) -> Edition:
    return Edition(piece, (), None, piece.design.units("inch"))


def marks_in(records: tuple[Record, ...]) -> list[Label]:
    return [one for one in records if isinstance(one, Label) and one.style == "bold"]


@pytest.mark.parametrize("seed", range(30))
def test_every_mark_is_drawn_large_enough_and_clear_of_the_others(bench_piece: Piece, seed) -> None:
    """Strips from 9 mm up, most of them too thin to write in. Letters of 6.5 points at least are the house's own."""
    chance = Random(seed)
    sizes = [(chance.randint(60, 1500), chance.randint(9, 70), chance.randint(1, 4)) for _ in range(1 + seed % 8)]
    parts = [Wanted(chr(65 + n), length, width, count) for n, (length, width, count) in enumerate(sizes)]
    layout = lay_out_boards(parts, [Board("oak", 3000, 190)], Rules(effort=30))
    edition = edition_of(bench_piece)
    drawn: Counter[str] = Counter()
    for laid in layout.boards:
        records = drawn_board(edition, laid, {}, SCALE)
        marks = marks_in(records)
        drawn.update({mark: n * laid.count for mark, n in Counter(one.string for one in marks).items()})
        assert all(one.size >= edition.style.lettering.caption for one in marks)
        assert not any(a.box.meets(b.box) for a, b in combinations(marks, 2))
        leaders = [one for one in records if isinstance(one, Line) and one.pen == edition.style.pens.leader]
        runs = [Segment(one.x0, one.y0, one.x1, one.y1) for one in leaders]
        assert not any(segment_meets_box(run, one.box) for run in runs for one in marks)
    assert drawn == Counter({part.mark: part.count for part in parts})


def test_a_leader_ends_in_the_strip_it_names(bench_piece: Piece) -> None:
    """Two thin strips in the middle of a board, between wide ones."""
    parts = [Wanted("A", 2900, 80), Wanted("B", 1400, 12, 2), Wanted("C", 2900, 75)]
    (laid,) = lay_out_boards(parts, [Board("oak", 3000, 190)], Rules()).boards
    records = drawn_board(edition_of(bench_piece), laid, {}, SCALE)
    starts = [(one.x0, one.y0) for one in records if isinstance(one, Line)]
    thin = [one for one in laid.placed if one.mark == "B"]
    assert len(starts) == len(thin) == 2
    for part in thin:
        x0, y0, x1, y1 = (v * SCALE for v in (part.x, part.y, part.x + part.length, part.y + part.width))
        assert sum(x0 < x < x1 and y0 < y < y1 for x, y in starts) == 1


@pytest.mark.parametrize("system", ["inch", "mm"])
def test_the_marks_on_the_layouts_add_up_to_the_parts(bench_piece: Piece, system) -> None:
    """Counted on the drawings: as many of each mark as the piece has such parts."""
    edition = Edition(bench_piece, (), None, bench_piece.design.units(system))
    drawn: Counter[str] = Counter()
    for plan in board_plans(bench_piece):
        for laid in plan.layout.boards:
            marks = _drawn_marks(edition, laid, plan.slants)
            drawn.update({mark: n * laid.count for mark, n in marks.items()})
    assert drawn == Counter({item.mark: item.quantity for item in bench_piece.items})


def _drawn_marks(edition: Edition, laid: LaidBoard, slants: dict[str, float]) -> Counter[str]:
    return Counter(one.string for one in marks_in(drawn_board(edition, laid, slants, SCALE)))
