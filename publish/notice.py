"""The change notice: a page for those who have an earlier set, in the unit system it was made in."""

from __future__ import annotations

from pathlib import Path

from publish.changes import Changes
from publish.drawing.flow import Block, Heading, Listing, Paragraph
from publish.drawing.style import HOUSE
from publish.drawing.title_block import SheetInfo
from publish.edition import PAPERS, UNIT_WORDS
from publish.paged import paged
from publish.words.changes import NOTHING, sections, title
from publish.writers.pdf import Document, write_pdf
from publish.writers.template_files import LANGUAGES

KEY = "changes"


def write_notice(path: Path, changes: Changes) -> int:
    """Write the notice as a PDF; gives the number of its pages. OSError where that cannot be done."""
    blocks: list[Block] = []
    for section in sections(changes):
        blocks += [Heading(section.heading), Listing(section.lines)]
    made = paged(KEY, blocks or [Paragraph(NOTHING)], _info(changes), PAPERS[changes.system], HOUSE, 2)
    about = "For those who have an earlier set."
    document = Document(title(changes), changes.after.maker, about, "change notice", LANGUAGES[changes.system])
    write_pdf(path, made, document)
    return len(made)


def _info(changes: Changes) -> SheetInfo:
    return SheetInfo(
        title=title(changes),
        project=changes.after.plan,
        sheet=1,
        sheets=1,
        units=UNIT_WORDS[changes.system],
        revision=str(changes.after.revision),
        maker=changes.after.maker,
        caption="CHANGES",
    )
