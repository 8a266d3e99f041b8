"""How the parts come out of the boards: each board to scale with its parts marked, and the cuts in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model.board_plan import StockPlan, board_plans
from model.boards.pieces import LaidBoard
from publish.drawing.box import Box
from publish.drawing.lettering import INLINE, set_text, text_width, wrap
from publish.drawing.records import Line, Record, rectangle
from publish.drawing.shift import moved
from publish.drawing.style import GREY, Colour, Pen, points
from publish.drawing.typeface import FaceStyle, reach
from publish.edition import Edition, Leaf
from publish.words.boards import board_title, cut_words, plan_summary

PART_TINT: Colour = (0.95, 0.92, 0.86)
KEPT_TINT: Colour = (0.97, 0.97, 0.97)
WASTE_TINT: Colour = (0.86, 0.86, 0.86)
GAP = 7.0  # mm between two boards
GUTTER = 9.0  # mm between two columns
LARGEST_SCALE = 0.25
MOST_HIGH = 0.6  # share of the page's height that one board or sheet may take: its cuts stand below it
TALLEST = 1.05  # size of letters for a strip of height 1: a capital is two thirds of that
LEAST = points(4.0)
CLEAR = 0.3  # mm of a strip that its letters leave free
MOST_COLUMNS = 4  # of the list of cuts


@dataclass(frozen=True)
class _Block:
    """One board drawn, its top left corner at (0, 0)."""

    records: tuple[Record, ...]
    height: float


def leaves(edition: Edition) -> list[Leaf]:
    """As many pages as the boards and the sheets need, sheets in two columns; none where nothing is sawn from them."""
    plans = board_plans(edition.piece)
    pages = _flowed(edition, [plan for plan in plans if plan.of == "board"], 1)
    pages += _flowed(edition, [plan for plan in plans if plan.of == "sheet"], 2)
    return [_leaf(edition, number, page) for number, page in enumerate(pages)]


def _flowed(edition: Edition, plans: Sequence[StockPlan], columns: int) -> list[list[Record]]:
    """The records of each page, all drawn to one scale; a block that does not fit begins the next column."""
    area = edition.text_area
    width = (area.width - (columns - 1) * GUTTER) / columns
    longest = max((laid.board.length for plan in plans for laid in plan.layout.boards), default=1.0)
    widest = max((laid.board.width for plan in plans for laid in plan.layout.boards), default=1.0)
    scale = min(width / longest, area.height * MOST_HIGH / widest, LARGEST_SCALE)
    pages: list[list[Record]] = []
    y, column = area.bottom, columns  # no page yet: nothing fits
    for block in (block for plan in plans for block in _blocks(edition, plan, width, scale)):
        if y - block.height < area.bottom:
            y, column = area.top, column + 1
            if column >= columns:
                pages.append([])
                column = 0
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
    y -= 1.0
    for line in wrap(text, width, letters.small, "regular", INLINE):
        y -= letters.small * letters.leading
        records += set_text(line, 0.0, y, letters.small, fraction=INLINE)
    return _Block(tuple(records), -y + 1.5)


def _board(edition: Edition, plan: StockPlan, laid: LaidBoard, number: int, width: float, scale: float) -> _Block:
    letters = edition.style.lettering
    y = -letters.small
    records = set_text(board_title(edition, laid, number, plan.of), 0.0, y, letters.small, "semibold", fraction=INLINE)
    top = y - 2.0
    high = laid.board.width * scale
    origin = (0.0, top - high)
    records += _drawn(edition, plan, laid, origin, scale)
    text, used = _cuts(edition, laid, top - high - 1.5, width)
    return _Block((*records, *text), -(top - high - 1.5) + used)


def _drawn(
    edition: Edition, plan: StockPlan, laid: LaidBoard, origin: tuple[float, float], scale: float
) -> list[Record]:
    x0, y0 = origin

    def box(x: float, y: float, length: float, width: float) -> Box:
        return Box(x0 + x * scale, y0 + y * scale, x0 + (x + length) * scale, y0 + (y + width) * scale)

    thin = Pen(points(0.5))
    records: list[Record] = [
        rectangle(box(0, 0, laid.board.length, laid.board.width), edition.style.pens.visible, WASTE_TINT)
    ]
    for rest in laid.offcuts:
        if rest.kept:
            place = box(rest.x, rest.y, rest.length, rest.width)
            records.append(rectangle(place, thin, KEPT_TINT))
            size = f"{edition.number(rest.width)} × {edition.number(rest.length)}"
            records += _inside(size, place, points(7.0), "regular")
    for defect in laid.board.defects:
        start, low, end, high = defect if len(defect) == 4 else (defect[0], 0.0, defect[1], laid.board.width)
        records += _crossed_out(box(start, low, end - start, high - low), thin)
    for part in laid.placed:
        place = box(part.x, part.y, part.length, part.width)
        records.append(rectangle(place, thin, PART_TINT))
        if part.mark in plan.slants:
            records += _head_to_foot(part.mark, place, plan.slants[part.mark] * scale, thin)
        else:
            records += _mark(part.mark, place)
    return records


def _head_to_foot(mark: str, place: Box, slant: float, pen: Pen) -> list[Record]:
    """The cut between two parts in one blank, and the mark of each at its wider end."""
    (x, y), each = place.centre, mark.split(" + ")
    quarter = place.width / 4
    halves = (
        Box(place.left + quarter / 2, y, x - quarter / 2, place.top),
        Box(x + quarter / 2, place.bottom, place.right - quarter / 2, y),
    )
    records: list[Record] = [Line(place.left, y - slant / 2, place.right, y + slant / 2, pen)]
    return records + [record for half, one in zip(halves, each, strict=True) for record in _mark(one, half)]


def _crossed_out(place: Box, pen: Pen) -> list[Record]:
    """A defect."""
    corners = ((place.left, place.bottom, place.right, place.top), (place.left, place.top, place.right, place.bottom))
    return [rectangle(place, pen, WASTE_TINT), *(Line(*ends, pen) for ends in corners)]


def _mark(mark: str, place: Box) -> list[Record]:
    return _inside(mark, place, points(9.0), "bold")


def _inside(text: str, place: Box, largest: float, face: FaceStyle) -> list[Record]:
    """Text in the middle of a place, as large as it may be there; nothing where it could not be read."""
    deep, high = reach(text)  # J and Q go below the line
    size = min(largest, place.height * TALLEST, (place.height - CLEAR) / (high - deep))
    if size < LEAST or text_width(text, size, face, INLINE) > place.width - 0.6:
        return []
    low = place.centre[1] - size * (deep + high) / 2
    return set_text(text, place.centre[0], low, size, face, "centre", fraction=INLINE)


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
