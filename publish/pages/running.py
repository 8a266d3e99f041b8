"""Pages of running text: blocks poured over as many as it takes."""

from __future__ import annotations

from collections.abc import Sequence

from publish.drawing.flow import Block, flow
from publish.edition import Edition, Leaf


def running_pages(edition: Edition, key: str, title: str, blocks: Sequence[Block], columns: int = 1) -> list[Leaf]:
    """A leaf for each page, the first in the list of contents, the others as its continuation."""
    made: list[Leaf] = []
    while blocks:
        flowed = flow(blocks, edition.text_area, columns, style=edition.style)
        blocks = flowed.rest
        more = f"-{len(made) + 1}" if made else ""
        name = f"{title} (continued)" if made else title
        made.append(Leaf(key + more, name, flowed.records, edition.info(name, "LIST"), level=None if made else 0))
    return made
