"""How the parts come out of the boards: each board to scale with its parts marked, and the cuts in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model.board_plan import StockPlan, board_plans
from model.boards.pieces import LaidBoard
from publish.board_drawing import drawn_board
from publish.drawing.box import around
from publish.drawing.lettering import INLINE, set_text, text_width, wrap
from publish.drawing.records import Record
from publish.drawing.shift import moved
from publish.drawing.style import GREY, points
from publish.drawing.typeface import FaceStyle
from publish.edition import Edition, Leaf
from publish.words.boards import board_title, cut_words, plan_summary, reading_words, short_rips

GAP = 7.0  # mm between two boards
GUTTER = 9.0  # mm between two columns
LARGEST_SCALE = 0.25
MOST_HIGH = 0.6  # share of the page's height that one board or sheet may take: its cuts stand below it
MOST_COLUMNS = 4  # of the list of cuts


@dataclass(frozen=True)
class _Block:
    """One board drawn, its top left corner at (0, 0)."""

    records: tuple[Record, ...]
    height: float


def leaves(edition: Edition) -> list[Leaf]:
    """As many pages as the boards and the sheets need, sheets in two columns; none where nothing is sawn from them."""
    plans = board_plans(edition.piece)
    if not plans:
        return []
    note = _note(edition, plans)
    pages = _flowed(edition, [plan for plan in plans if plan.of == "board"], 1, note)
    pages += _flowed(edition, [plan for plan in plans if plan.of == "sheet"], 2, None if pages else note)
    return [_leaf(edition, number, page) for number, page in enumerate(pages)]


def _flowed(edition: Edition, plans: Sequence[StockPlan], columns: int, note: _Block | None) -> list[list[Record]]:
    """The records of each page, all drawn to one scale; a block that does not fit begins the next column.

    `note` stands at the head of the first page.
    """
    area = edition.text_area
    width = (area.width - (columns - 1) * GUTTER) / columns
    longest = max((laid.board.length for plan in plans for laid in plan.layout.boards), default=1.0)
    widest = max((laid.board.width for plan in plans for laid in plan.layout.boards), default=1.0)
    scale = min(width / longest, area.height * MOST_HIGH / widest, LARGEST_SCALE)
    pages: list[list[Record]] = []
    y, top, column = area.bottom, area.top, columns  # no page yet: nothing fits
    for block in (block for plan in plans for block in _blocks(edition, plan, width, scale)):
        if y - block.height < area.bottom:
            column += 1
            if column >= columns:
                first = note if not pages else None
                pages.append([moved(record, area.left, area.top) for record in first.records] if first else [])
                top, column = area.top - (first.height if first else 0.0), 0
            y = top
        pages[-1] += [moved(record, area.left + column * (width + GUTTER), y) for record in block.records]
        y -= block.height + GAP
    return pages


def _leaf(edition: Edition, number: int, records: Sequence[Record]) -> Leaf:
    title = "Board layouts" if number == 0 else "Board layouts (continued)"
    key = "boards" if number == 0 else f"boards-{number + 1}"
    return Leaf(key, title, tuple(records), edition.info(title, "LIST"), level=0 if number == 0 else None)


def _blocks(edition: Edition, plan: StockPlan, width: float, scale: float) -> list[_Block]:
    """The plan's summary with its first board, then the other boards."""
    blocks = [_board(edition, plan, laid, n, width, scale) for n, laid in enumerate(plan.layout.boards, start=1)]
    head = _summary(edition, plan, width)
    if not blocks:
        return [head]
    first = blocks[0]
    below = [moved(record, 0.0, -head.height - 2.0) for record in first.records]
    return [_Block((*head.records, *below), head.height + 2.0 + first.height), *blocks[1:]]


def _summary(edition: Edition, plan: StockPlan, width: float) -> _Block:
    letters = edition.style.lettering
    title, text = plan_summary(edition, plan)
    y = -letters.heading
    records = set_text(title, 0.0, y, letters.heading, "bold", fraction=INLINE)
    said = _running(edition, text, width)
    below = [moved(record, 0.0, y - 1.0) for record in said.records]
    return _Block((*records, *below), said.height - y + 2.5)


def _note(edition: Edition, plans: Sequence[StockPlan]) -> _Block:
    """How to read the layouts, across the page."""
    said = _running(edition, reading_words(edition, plans), edition.text_area.width)
    return _Block(said.records, said.height + GAP - 1.0)


def _running(edition: Edition, text: str, width: float, face: FaceStyle = "regular") -> _Block:
    """Small running text."""
    size = edition.style.lettering.small
    records: list[Record] = []
    y = 0.0
    for line in wrap(text, width, size, face, INLINE):
        y -= size * edition.style.lettering.leading
        records += set_text(line, 0.0, y, size, face, fraction=INLINE)
    return _Block(tuple(records), -y)


def _board(edition: Edition, plan: StockPlan, laid: LaidBoard, number: int, width: float, scale: float) -> _Block:
    letters = edition.style.lettering
    y = -letters.small
    records = set_text(board_title(edition, laid, number, plan.of), 0.0, y, letters.small, "semibold", fraction=INLINE)
    drawn = drawn_board(edition, laid, plan.slants, scale)
    room = around(record.box for record in drawn)  # marks may stand above and below the board
    top = y - 2.0 - room.height
    records += [moved(record, 0.0, top - room.bottom) for record in drawn]
    caution = _running(edition, short_rips(edition, laid), width, "semibold")
    if caution.records:
        records += [moved(record, 0.0, top - 1.5) for record in caution.records]
        top -= caution.height + 1.0
    text, used = _cuts(edition, laid, top - 1.5, width)
    return _Block((*records, *text), -(top - 1.5) + used)


def _cuts(edition: Edition, laid: LaidBoard, top: float, width: float) -> tuple[list[Record], float]:
    """The cuts in order, in columns; the records and the height used."""
    size = points(7.5)
    step = size * 1.35
    lines = [cut_words(edition, laid, cut) for cut in laid.cuts]
    widest = max((text_width(line, size, fraction=INLINE) for line in lines), default=0.0)
    columns = max(1, min(MOST_COLUMNS, int(width // (widest + 9.0))))
    rows = -(-len(lines) // columns)
    records: list[Record] = []
    for n, line in enumerate(lines):
        column, row = divmod(n, rows)
        x, y = column * width / columns, top - (row + 1) * step
        records += set_text(f"{n + 1}.", x + 4.0, y, size, anchor="right", colour=GREY)
        records += set_text(line, x + 5.5, y, size, fraction=INLINE)
    return records, rows * step
