"""The numbers that a hard conversion changed: a report for the maker's own file, no part of the set that is sold."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

from plans.design import Design
from publish.drawing.flow import Block, Heading, Listing, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.drawing.title_block import SheetInfo
from publish.edition import PAPERS, UNIT_WORDS
from publish.house import style_of
from publish.paged import paged
from publish.words.remade import about, change_words, group, how, rule_words, title, where
from publish.writers.pdf import Document, write_pdf
from publish.writers.template_files import LANGUAGES

KEY = "changed-numbers"
COLUMNS = (
    Column("Line", "right"),
    Column("Number", stretch=1.6),
    Column("As written", stretch=1.0),
    Column("Re-made", stretch=0.8, style="semibold"),
    Column("by mm", "right"),
    Column("by %", "right"),
    Column("Rule", stretch=1.0),
)


def changed_numbers(path: Path, design: Design) -> int:
    """Write the report of a design that was re-made as a PDF; gives the number of its pages."""
    style, system = style_of(design), design.system
    rows: list[Row] = []
    for name, found in groupby(design.changes, lambda change: group(change.path)):
        rows.append(Row((name,), group=True))
        for change in found:
            by = change_words(change)
            cells = (str(change.place.line), where(change.path), change.written, change.now, *by, rule_words(change))
            rows.append(Row(cells))
    blocks: list[Block] = [
        Paragraph(about(design.changes, design.other_system, system)),
        TableBlock(COLUMNS, tuple(rows)),
        Heading("The rules", 2),
        Listing(how(system)),
    ]
    sheets = paged(KEY, blocks, _info(design), PAPERS[system], style)
    spec = design.spec
    document = Document(
        f"{spec.plan}, numbers that changed",
        spec.maker,
        "For the maker's own file.",
        "hard conversion",
        LANGUAGES[system],
    )
    write_pdf(path, sheets, document)
    return len(sheets)


def _info(design: Design) -> SheetInfo:
    return SheetInfo(
        title=title(),
        project=design.spec.plan,
        sheet=1,
        sheets=1,
        units=UNIT_WORDS[design.system],
        revision=str(design.spec.revision),
        maker=style_of(design).imprint.name or design.spec.maker,
        caption="NUMBERS",
    )
