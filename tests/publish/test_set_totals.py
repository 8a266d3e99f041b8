"""Counts as they are printed: title blocks, cut list and layouts agree to the piece."""

from collections import Counter
from collections.abc import Iterator, Sequence

from model.board_plan import board_plans
from model.cut_list import cut_list, supplied
from publish.board_drawing import drawn_board
from publish.drawing.records import Label, Sheet
from publish.edition import Edition

NEAR = 0.3  # mm: set on one line, or in one column
SCALE = 250 / 3050


def labels(sheet: Sheet) -> list[Label]:
    return [record for record in sheet.items if isinstance(record, Label)]


def quantity(said: str) -> int:
    """`4`, or `2 + 2 mirrored`."""
    return sum(int(word) for word in said.split() if word.isdigit())


def column(sheet: Sheet, heading: str) -> list[Label]:
    """What stands under a heading of a table, left-aligned with it."""
    heads = [one for one in labels(sheet) if one.string == heading]
    return [one for head in heads for one in labels(sheet) if abs(one.x - head.x) < NEAR and one.y < head.y - NEAR]


def listed(sheets: Sequence[Sheet], key: str) -> Iterator[tuple[str, int]]:
    """Mark and quantity of every line of a table that has both, on all pages of that key."""
    for sheet in sheets:
        if sheet.key.startswith(key):
            many = column(sheet, "Quantity")
            for mark in column(sheet, "Mark"):
                beside = [one for one in many if abs(one.y - mark.y) < NEAR]
                yield from ((mark.string, quantity(one.string)) for one in beside)


def titled(sheet: Sheet) -> int:
    """The quantity in the title block: what stands under that caption."""
    (caption,) = (one for one in labels(sheet) if one.string == "QUANTITY")
    below = [one for one in labels(sheet) if abs(one.x - caption.x) < NEAR and one.y < caption.y]
    return quantity(max(below, key=lambda one: one.y).string)


def test_every_page_counts_the_same_parts(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    piece = edition.piece
    parts = Counter({item.mark: item.quantity for item in piece.items})
    assert parts.total() == len(piece.parts)

    drawings = {edition.part_sheet(item): item.mark for item in piece.items}
    on_sheets = Counter({drawings[one.key]: titled(one) for one in set_sheets if one.key in drawings})
    assert on_sheets == parts

    boards = Counter({row.mark: row.item.quantity for row in cut_list(piece) if row.board is not None})
    others = Counter({item.mark: item.quantity for item in supplied(piece)})
    assert Counter(dict(listed(set_sheets, "cut-list"))) == parts + boards - others


def test_the_layouts_show_every_piece_that_is_sawn(edition: Edition) -> None:
    """Each mark drawn as often as there are such parts, boards cut alike counted; what is glued up, by its boards."""
    drawn: Counter[str] = Counter()
    for plan in board_plans(edition.piece):
        for laid in plan.layout.boards:
            records = drawn_board(edition, laid, plan.slants, SCALE)
            marks = [one.string for one in records if isinstance(one, Label) and one.style == "bold"]
            drawn.update({mark: n * laid.count for mark, n in Counter(marks).items()})
    sawn = [row for row in cut_list(edition.piece) if row.sawn and row.stock and (row.solid or row.sheet)]
    assert drawn == Counter({row.mark: row.item.quantity for row in sawn})
