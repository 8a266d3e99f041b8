"""How to use these plans, and what to take care of."""

from __future__ import annotations

from publish.drawing.box import Box
from publish.drawing.flow import Block, Caution, Heading, Listing, Paragraph, flow
from publish.drawing.records import Record
from publish.edition import Edition, Leaf
from publish.words.guide import CAUTIONS, READING, RESPONSIBILITY, reading
from publish.words.spelling import spelt

GUTTER = 12.0


def leaves(edition: Edition) -> list[Leaf]:
    """One page: how to read on the left, what to take care of on the right."""
    area = edition.text_area
    width = (area.width - GUTTER) / 2
    left = Box(area.left, area.bottom, area.left + width, area.top)
    records: list[Record] = []
    for column, blocks in enumerate((_reading(edition), _care(edition))):
        flowed = flow(blocks, left.moved(column * (width + GUTTER), 0.0), style=edition.style)
        if flowed.rest:
            raise RuntimeError("the guide is longer than its page")
        records += flowed.records
    title = "How to use these plans"
    return [Leaf("guide", title, tuple(records), edition.info(title, "GUIDE"))]


def _reading(edition: Edition) -> list[Block]:
    return [
        Heading("Reading the drawings"),
        *(Paragraph(text) for text in READING),
        Listing(reading(edition)),
    ]


def _care(edition: Edition) -> list[Block]:
    spec = edition.piece.design.spec
    blocks: list[Block] = [
        Heading("Before you begin"),
        *(Caution(text, word) for word, text in CAUTIONS),
        Heading("Responsibility"),
        Paragraph(RESPONSIBILITY),
    ]
    if spec.licence:
        blocks += [Heading(spelt(edition, "Licence")), Paragraph(spec.licence)]
    return blocks
