"""The sizes a design comes in: what differs, and how large the piece comes out."""

from __future__ import annotations

from publish.drawing.flow import Block, Heading, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.names import capital
from publish.words.sizes import about, changed, name_of, value_of

TITLE = "Sizes"


def leaves(edition: Edition) -> list[Leaf]:
    """One table; no page where the design comes in one size."""
    if not edition.sizes:
        return []
    names = changed(edition.sizes)
    columns = (
        Column("Size", style="semibold"),
        *(Column(title, "right") for title in ("Width", "Depth", "Height", "Parts")),
        *(Column(capital(name.replace("_", " ")), "right") for name in names),
    )
    rows = tuple(
        Row(
            (
                name_of(made, edition.piece.design),
                *(edition.number(mm) for mm in made.overall),
                str(made.parts),
                *(value_of(edition, made, name) for name in names),
            )
        )
        for made in edition.sizes
    )
    blocks: list[Block] = [
        Heading("What this design comes in"),
        TableBlock(columns, rows),
        *(Paragraph(text) for text in about(edition)),
    ]
    return running_pages(edition, "sizes", TITLE, blocks)
