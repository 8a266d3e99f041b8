"""The whole build on one page: what is made when, of which parts, and where one waits."""

from __future__ import annotations

from model.steps import Step
from model.works import PREPARED
from publish.drawing.flow import Block, Paragraph, TableBlock, flow
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.milestones import PICTURES, build_in_short, items_marked, parts_used, short_wait
from publish.words.spelling import spelt
from publish.words.steps import step_words

TITLE = "The build in short"
PREPARE, CUT, PUT_TOGETHER, FINISH = "Prepare", "Cut and shape the parts", "Put together", "Finish"
COLUMNS = (
    Column("Step", "right", style="bold", least=9.0),
    Column("What", stretch=1.6),
    Column("Parts", stretch=1.0),
    Column("Wait", stretch=0.6, least=18.0),
)


def leaves(edition: Edition) -> list[Leaf]:
    """One page: in two columns where one would not hold it."""
    blocks: list[Block] = [
        Paragraph(build_in_short(edition)),
        Paragraph(spelt(edition, PICTURES), small=True),
        TableBlock(COLUMNS, _rows(edition)),
    ]
    columns = 2 if flow(blocks, edition.text_area, style=edition.style).rest else 1
    return running_pages(edition, "build", TITLE, blocks, columns)


def _rows(edition: Edition) -> tuple[Row, ...]:
    rows: list[Row] = []
    group = ""
    for number, step in enumerate(edition.steps, start=1):
        here = _group(step, group)
        if here != group:
            group = here
            rows.append(Row((group,), group=True))
        words = step_words(edition, step)
        rows.append(Row((str(number), words.title, _parts(edition, step), short_wait(edition, step))))
    return tuple(rows)


def _group(step: Step, before: str) -> str:
    """The part of the build a step belongs to; one of the maker's own stays where it comes."""
    if step.kind in (*PREPARED, "templates", "own"):
        return before or PREPARE
    if step.kind in ("dry fit", "sand", "stage", "level"):
        return PUT_TOGETHER
    return FINISH if step.kind in ("finish", "fittings", "supplies") else CUT


def _parts(edition: Edition, step: Step) -> str:
    """Parts that join the piece with their number; for work on single parts, their marks."""
    if step.stage is not None:
        return ", ".join(f"{mark} ({count})" for mark, _, count in parts_used(edition, step))
    return items_marked(edition, step)
