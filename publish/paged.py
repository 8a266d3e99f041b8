"""Reports of their own, beside the set: blocks of text set out over as many pages as they take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from publish.drawing.flow import Block, flow
from publish.drawing.records import Sheet
from publish.drawing.style import HouseStyle, Paper
from publish.drawing.title_block import SheetInfo, text_page


def paged(
    key: str, blocks: Sequence[Block], info: SheetInfo, paper: Paper, style: HouseStyle, columns: int = 1
) -> list[Sheet]:
    """The sheets, numbered in their title blocks; the first alone has a bookmark."""
    area = text_page(info, paper, style).free
    bodies = []
    while blocks:
        flowed = flow(blocks, area, columns, style=style)
        bodies.append(flowed.records)
        blocks = flowed.rest
    sheets = []
    for number, body in enumerate(bodies, start=1):
        around = text_page(replace(info, sheet=number, sheets=len(bodies)), paper, style).records
        first = number == 1
        name = key if first else f"{key}-{number}"
        sheets.append(Sheet(name, info.title, paper, (*around, *body), 0 if first else None, str(number)))
    return sheets
