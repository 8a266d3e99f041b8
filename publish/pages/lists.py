"""What to cut, and what to buy beside the wood: cut list, hardware and supplies."""

from __future__ import annotations

from model.cut_list import CutRow, cut_list, supplied
from model.takeoff import adhesives, finish_area, glue_total, hardware
from publish.drawing.flow import Block, Gap, Heading, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.lists import (
    area_words,
    fitted,
    hardware_name,
    rings_words,
    row_name,
    row_note,
)
from publish.words.names import capital, counted, item_name, quantity

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
    """The cut list, then hardware and supplies."""
    return [
        *running_pages(edition, "cut-list", "Cut list", _cuts(edition)),
        *running_pages(edition, "hardware", "Hardware and supplies", _hardware(edition), columns=2),
    ]


def _supplied(edition: Edition) -> list[Block]:
    """What others make, with the drawing to give them."""
    rows = []
    for item in supplied(edition.piece):
        part = edition.piece.parts[item.shown]
        n = edition.number
        size = " × ".join(n(high - low) for low, high in (part.thickness, part.width, part.length))
        name = f"{capital(item_name(edition.piece, item))}, {part.spec.made_of}"
        rows.append(Row((item.mark, str(item.quantity), name, size), to=edition.part_sheet(item)))
    if not rows:
        return []
    columns = (
        Column("Mark", style="bold"),
        Column("Number", "right"),
        Column("Supplied by others", stretch=1.0, style="semibold"),
        Column("Thick × wide × long", "right"),
    )
    return [Heading("Supplied by others"), TableBlock(columns, tuple(rows)), Gap(3.0)]


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


def _hardware(edition: Edition) -> list[Block]:
    piece = edition.piece
    blocks: list[Block] = []
    bought = hardware(piece)
    if bought:
        columns = (Column("Number", "right", style="bold"), Column("What", stretch=1.0))
        rows = tuple(
            Row((str(row.count), capital(hardware_name(edition, row)) + (f" ({row.note})" if row.note else "")))
            for row in bought
        )
        blocks += [Heading("Hardware"), TableBlock(columns, rows)]
    return [*blocks, *_supplied(edition), *_supplies(edition)]


def _supplies(edition: Edition) -> list[Block]:
    piece, spec = edition.piece, edition.piece.design.spec
    rows = []
    plugs = sum(row.count for row in hardware(piece) if row.values.get("plugged") is not None)
    if plugs:
        rows.append(Row((f"{plugs} plugs", "cut from offcuts of the same board, so that they match")))
    if spec.glue:
        rows.append(Row((capital(spec.glue), f"about {area_words(edition, glue_total(piece))} of joints to spread")))
    for name, count in adhesives(piece).items():
        rows.append(Row((capital(name), f"{counted(count, 'joint')} to stick")))
    if spec.finish:
        area = area_words(edition, finish_area(piece))
        rows.append(Row((capital(spec.finish.name), f"{spec.finish.coats} coats over about {area}")))
    rows.append(Row(("Abrasives", "120, 150 and 180 grit")))
    columns = (Column("Supply", stretch=1.0, style="semibold"), Column("How much", stretch=1.6))
    return [Heading("Supplies"), TableBlock(columns, tuple(rows))]
