"""What to take to the lumber yard: wood and sheets to buy, board by board, and what to look for."""

from __future__ import annotations

from model.buying import purchase_of
from model.cost import estimate
from model.cut_list import CutRow, cut_list
from model.takeoff import LumberRow, lumber, sheet_goods
from publish.drawing.flow import Block, Gap, Heading, Listing, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.cost import amount_words, estimate_note, money
from publish.words.lists import area_words, boards_feet_words, feet_words, net_words
from publish.words.lumber import boards_words, dryness, look_for
from publish.words.names import capital


def leaves(edition: Edition) -> list[Leaf]:
    """The wood, the sheets, and what they cost where the maker gives prices; none where nothing is sawn."""
    blocks = [*_lumber(edition), *_sheets(edition), *_cost(edition)]
    return running_pages(edition, "lumber", "Lumber to buy", blocks)


def _lumber(edition: Edition) -> list[Block]:
    rows = lumber(edition.piece)
    if not rows:
        return []
    waste = edition.piece.design.spec.waste
    columns = (
        Column("Wood", stretch=0.6, style="semibold"),
        Column("Rough"),
        Column("Pieces", "right"),
        Column("Longest", "right"),
        Column("Widest", "right"),
        Column("Net", "right"),
        Column(f"With {waste} % for waste", "right", style="bold"),
        Column("Boards, by the layouts", stretch=1.6),
        Column("They measure", "right"),
    )
    note = (
        "Net is the blanks of the cut list at the rough thickness. Buy the boards of the layouts where you can get "
        "them; of other sizes, shorter ones too, buy what the allowance for waste comes to. Check that the longest and "
        "the widest piece fit."
    )
    looks = tuple(f"{capital(row.wood)}, {row.stock}: {said}" for row in rows if (said := _look_for(edition, row)))
    return [
        Heading("Wood"),
        TableBlock(columns, tuple(_lumber_row(edition, row) for row in rows)),
        Paragraph(note, small=True),
        Heading("What to look for", level=2),
        Listing((*looks, dryness(edition))),
        Gap(2.0),
    ]


def _lumber_row(edition: Edition, row: LumberRow) -> Row:
    purchase = purchase_of(edition.piece, row.wood, row.stock)
    return Row(
        (
            capital(row.wood),
            row.stock,
            str(row.pieces),
            edition.measure(row.longest),
            edition.measure(row.widest),
            net_words(edition, row),
            feet_words(edition, row),
            boards_words(edition, purchase),
            boards_feet_words(edition, purchase),
        )
    )


def _look_for(edition: Edition, row: LumberRow) -> str:
    return look_for(edition, row, _cut_from(edition, row))


def _cut_from(edition: Edition, row: LumberRow) -> list[CutRow]:
    return [
        one
        for one in cut_list(edition.piece)
        if one.solid and one.sawn and (one.wood, one.stock or "to suit") == (row.wood, row.stock)
    ]


def _sheets(edition: Edition) -> list[Block]:
    found = sheet_goods(edition.piece)
    if not found:
        return []
    columns = (
        Column("Sheet goods", stretch=0.6, style="semibold"),
        Column("Nominal"),
        Column("Thick", "right"),
        Column("Pieces", "right"),
        Column("Area of the pieces", "right"),
        Column("Sheets, by the layouts", stretch=1.0, style="bold"),
    )
    rows = tuple(
        Row(
            (
                capital(row.name),
                row.nominal,
                edition.measure(row.true),
                str(row.pieces),
                area_words(edition, row.area),
                boards_words(edition, purchase_of(edition.piece, row.name, row.nominal)),
            )
        )
        for row in found
    )
    note = "Measure the sheet you buy before you cut what it fits: sheets of one nominal thickness differ."
    return [Heading("Sheet goods"), TableBlock(columns, rows), Paragraph(note, small=True), Gap(3.0)]


def _cost(edition: Edition) -> list[Block]:
    found = estimate(edition.piece)
    if found is None:
        return []
    currency = found.currency
    columns = (
        Column("What", stretch=1.0, style="semibold"),
        Column("Amount", "right"),
        Column("Each", "right"),
        Column("Cost", "right", style="bold"),
    )
    rows = [
        Row((capital(row.what), amount_words(row), money(currency, row.price), money(currency, row.cost)))
        for row in found.rows
    ]
    rows.append(Row(("Together", "", "", money(currency, found.total))))
    table = [TableBlock(columns, tuple(rows))] if found.rows else []
    return [Heading("Cost estimate"), *table, Paragraph(estimate_note(found), small=True)]
