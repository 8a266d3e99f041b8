"""How to use these plans, and what to take care of."""

from __future__ import annotations

from publish.drawing.flow import Block, Caution, Heading, Listing, Paragraph, flow
from publish.edition import Edition, Leaf
from publish.words.guide import CAUTIONS, READING, RESPONSIBILITY, reading


def leaves(edition: Edition) -> list[Leaf]:
    """One page in two columns."""
    spec = edition.piece.design.spec
    blocks: list[Block] = [
        Heading("How to use these plans"),
        *(Paragraph(text) for text in READING),
        Listing(reading(edition)),
        Heading("Before you begin"),
        *(Caution(text, word) for word, text in CAUTIONS),
        Heading("Responsibility"),
        Paragraph(RESPONSIBILITY),
    ]
    if spec.licence:
        blocks += [Heading("Licence"), Paragraph(spec.licence)]
    flowed = flow(blocks, edition.text_area, columns=2, style=edition.style)
    title = "How to use these plans"
    made = [Leaf("guide", title, flowed.records, edition.info(title, "GUIDE"))]
    if flowed.rest:
        more = flow(flowed.rest, edition.text_area, columns=2, style=edition.style)
        name = f"{title} (continued)"
        made.append(Leaf("guide-2", name, more.records, edition.info(name, "GUIDE"), level=None))
    return made
