"""Care of the finished piece, and what changed from revision to revision."""

from __future__ import annotations

from publish.drawing.flow import Block, Heading, Paragraph, TableBlock, flow
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.words.care import care


def leaves(edition: Edition) -> list[Leaf]:
    """One page."""
    spec = edition.piece.design.spec
    blocks: list[Block] = [Heading("Finishing and care"), *(Paragraph(text) for text in care(edition))]
    noted = {note.revision: (note.date.isoformat(), note.what) for note in spec.revisions}
    noted.setdefault(spec.revision, (spec.date.isoformat(), "This set."))
    rows = tuple(Row((str(number), *noted[number])) for number in sorted(noted, reverse=True))
    columns = (Column("Revision", style="bold"), Column("Date"), Column("What changed", stretch=1.0))
    blocks += [Heading("Revisions"), TableBlock(columns, rows)]
    blocks.append(Paragraph(f"Plans by {spec.maker}. {spec.licence}".strip(), small=True, grey=True))
    flowed = flow(blocks, edition.text_area, style=edition.style)
    title = "Care and revisions"
    return [Leaf("history", title, flowed.records, edition.info(title, "HISTORY"))]
