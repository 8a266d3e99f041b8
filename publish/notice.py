"""The change notice: a page for those who have an earlier set, in the unit system it was made in."""

from __future__ import annotations

from pathlib import Path

from publish.changes import Changes
from publish.drawing.flow import Block, Heading, Listing, Paragraph, flow
from publish.drawing.records import Sheet
from publish.drawing.style import HOUSE
from publish.drawing.title_block import SheetInfo, text_page
from publish.edition import PAPERS, UNIT_WORDS
from publish.words.changes import sections, title
from publish.writers.pdf import Document, write_pdf
from publish.writers.template_files import LANGUAGES

KEY = "changes"
NOTHING = "Nothing changed: the earlier set holds good."


def write_notice(path: Path, changes: Changes) -> int:
    """Write the notice as a PDF; gives the number of its pages. OSError where that cannot be done."""
    paper = PAPERS[changes.system]
    blocks: list[Block] = []
    for section in sections(changes):
        blocks += [Heading(section.heading), Listing(section.lines)]
    blocks = blocks or [Paragraph(NOTHING)]
    bodies = []
    while blocks:
        flowed = flow(blocks, text_page(_info(changes, 1, 1), paper, HOUSE).free, 2, style=HOUSE)
        bodies.append(flowed.records)
        blocks = list(flowed.rest)
    made = []
    for number, body in enumerate(bodies, start=1):
        framed = text_page(_info(changes, number, len(bodies)), paper, HOUSE)
        key = KEY if number == 1 else f"{KEY}-{number}"
        level = 0 if number == 1 else None
        made.append(Sheet(key, title(changes), paper, (*framed.records, *body), level, str(number)))
    about = "For those who have an earlier set."
    document = Document(title(changes), changes.after.maker, about, "change notice", LANGUAGES[changes.system])
    write_pdf(path, made, document)
    return len(made)


def _info(changes: Changes, sheet: int, of: int) -> SheetInfo:
    return SheetInfo(
        title=title(changes),
        project=changes.after.plan,
        sheet=sheet,
        sheets=of,
        units=UNIT_WORDS[changes.system],
        revision=str(changes.after.revision),
        maker=changes.after.maker,
        caption="CHANGES",
    )
