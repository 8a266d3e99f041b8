"""The cut list: every part that is sawn, with its blank."""

from __future__ import annotations

from model.cut_list import CutRow, cut_list
from publish.drawing.flow import Block, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.lists import (
    fitted,
    rings_words,
    row_name,
    row_note,
)
from publish.words.names import capital, quantity

CUT_COLUMNS = (
    Column("Mark", style="bold"),
    Column("Part", stretch=3.0),
    Column("Quantity"),
    Column("Thick", "right"),
    Column("Wide", "right"),
    Column("Long", "right"),
    Column("Rough wide", "right"),
    Column("Rough long", "right"),
    Column("Rings"),
    Column("Note", stretch=2.0),
)


def leaves(edition: Edition) -> list[Leaf]:
    """The whole list, over as many pages as it takes."""
    return running_pages(edition, "cut-list", "Cut list", _cuts(edition))


def _cuts(edition: Edition) -> list[Block]:
    rows: list[Row] = []
    groups: dict[tuple[str, str | None], list[CutRow]] = {}
    for row in cut_list(edition.piece):
        groups.setdefault((row.wood, row.stock), []).append(row)
    for (wood, stock), members in groups.items():
        rows.append(Row((capital(wood) + (f", from {stock}" if stock else ""),), group=True))
        rows += [_cut_row(edition, row) for row in members]
    unit = {"inch": "inches", "mm": "millimetres"}[edition.units.name]
    saw = edition.piece.design.spec.saw
    note = (
        f"Sizes in {unit}, over all: tenons are in the length, and a part with angled ends is measured at its "
        f"long points. Rough is the blank to saw first: {edition.number(saw.edge_allowance)} more in the width and "
        f"{edition.number(saw.end_allowance)} in the length, up to the next step of the rule. A size in brackets is "
        "marked on the part in its place. Cut joints from the part drawings, not from this list."
    )
    return [TableBlock(CUT_COLUMNS, tuple(rows)), Paragraph(note, small=True)]


def _cut_row(edition: Edition, row: CutRow) -> Row:
    n = edition.number
    cells = (
        row.mark,
        capital(row_name(edition, row)),
        quantity(row.item),
        n(row.thickness),
        fitted(edition, row, "width"),
        fitted(edition, row, "length"),
        n(row.rough_width),
        n(row.rough_length),
        rings_words(row.rings),
        row_note(edition, row),
    )
    return Row(cells, to=edition.part_sheet(row.item))
