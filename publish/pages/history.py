"""Care of the finished piece, how the first one came out, and what changed from revision to revision."""

from __future__ import annotations

from publish.drawing.flow import Block, Heading, Listing, Paragraph, TableBlock, flow
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.words.as_built import AS_BUILT, DIFFERS, buyer_notes
from publish.words.care import care

TITLE = "Care and revisions"


def leaves(edition: Edition) -> list[Leaf]:
    """One page, and as many more as it takes."""
    spec = edition.piece.design.spec
    blocks: list[Block] = [Heading("Finishing and care"), *(Paragraph(text) for text in care(edition))]
    blocks += _as_built(edition)
    noted = {note.revision: (note.date.isoformat(), note.what) for note in spec.revisions}
    noted.setdefault(spec.revision, (spec.date.isoformat(), "This set."))
    rows = tuple(Row((str(number), *noted[number])) for number in sorted(noted, reverse=True))
    columns = (Column("Revision", style="bold"), Column("Date"), Column("What changed", stretch=1.0))
    blocks += [Heading("Revisions"), TableBlock(columns, rows)]
    blocks.append(Paragraph(f"Plans by {spec.maker}. {spec.licence}".strip(), small=True, grey=True))
    made: list[Leaf] = []
    while blocks:
        flowed = flow(blocks, edition.text_area, style=edition.style)
        key = "history" if not made else f"history-{len(made) + 1}"
        made.append(Leaf(key, TITLE, flowed.records, edition.info(TITLE, "HISTORY"), level=None if made else 0))
        blocks = list(flowed.rest)
    return made


def _as_built(edition: Edition) -> list[Block]:
    """What the maker measured or did otherwise on the piece itself, and keeps for the buyer."""
    notes = buyer_notes(edition)
    return [Heading(AS_BUILT), Paragraph(DIFFERS), Listing(tuple(notes))] if notes else []
