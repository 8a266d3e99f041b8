"""What to take to the hardware shop: fixings with spares, what others make, glue, finish and the rest."""

from __future__ import annotations

from model.cut_list import supplied
from model.supplies import spares
from model.takeoff import HardwareRow, hardware
from publish.drawing.flow import Block, Gap, Heading, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.hardware import bought_words, counterpart, other_units
from publish.words.names import capital, item_name
from publish.words.supplies import supply_rows


def leaves(edition: Edition) -> list[Leaf]:
    """One page as a rule; the next ones where it takes more."""
    blocks = [*_hardware(edition), *_supplied(edition), *_supplies(edition)]
    return running_pages(edition, "hardware", "Hardware and supplies", blocks)


def _hardware(edition: Edition) -> list[Block]:
    bought = hardware(edition.piece)
    if not bought:
        return []
    columns = (
        Column("Needed", "right", style="bold"),
        Column("What", stretch=1.6),
        Column("Spare", "right"),
        Column(f"In {other_units(edition)}", stretch=0.8),
    )
    rows = tuple(_row(edition, row) for row in bought)
    note = (
        "Buy the number needed and the spares: some will break, or roll away. The holes of the drawings fit what is "
        "named under What; of another size, bore to suit it."
    )
    return [Heading("Hardware"), TableBlock(columns, rows), Paragraph(note, small=True), Gap(3.0)]


def _row(edition: Edition, row: HardwareRow) -> Row:
    what = capital(bought_words(edition, row)) + (f" ({row.note})" if row.note else "")
    return Row((str(row.count), what, _spare(spares(row)), counterpart(edition, row)))


def _spare(count: int) -> str:
    return f"+ {count}" if count else ""


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
        Column("What", stretch=1.0, style="semibold"),
        Column("Thick × wide × long", "right"),
    )
    return [Heading("Supplied by others"), TableBlock(columns, tuple(rows)), Gap(3.0)]


def _supplies(edition: Edition) -> list[Block]:
    columns = (
        Column("Supply", stretch=1.0, style="semibold"),
        Column("How much", stretch=1.2),
        Column("Note", stretch=1.8),
    )
    rows = tuple(Row(cells) for cells in supply_rows(edition))
    return [Heading("Supplies"), TableBlock(columns, rows)]
