"""The whole build on one page: what is made when, of which parts, and where one waits."""

from __future__ import annotations

from dataclasses import replace

from model.steps import Step
from model.works import PREPARED
from publish.drawing.flow import Block, Paragraph, TableBlock, flow
from publish.drawing.style import HouseStyle
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.milestones import PICTURES, build_in_short, fixings_used, items_marked, parts_used, short_wait
from publish.words.spelling import spelt
from publish.words.steps import step_words

TITLE = "The build in short"
PREPARE, CUT, PUT_TOGETHER, FINISH = "Prepare", "Cut and shape the parts", "Put together", "Finish"
SIZES = (1.0, 0.92, 0.84)  # of the letters of the table: 8.5 pt is no less than 7 pt
COLUMNS = (
    Column("Step", "right", style="bold", least=9.0),
    Column("What", stretch=1.2),
    Column("Parts and fixings", stretch=1.5),
    Column("Wait", stretch=0.5, least=16.0),
)


def leaves(edition: Edition) -> list[Leaf]:
    """One page: in two columns where one would not hold it, and in smaller letters where two would not."""
    blocks: list[Block] = [
        Paragraph(build_in_short(edition)),
        Paragraph(spelt(edition, PICTURES), small=True),
        TableBlock(COLUMNS, _rows(edition)),
    ]
    styles = [_smaller(edition.style, share) for share in SIZES]
    ways = [(style, columns) for style in styles for columns in (1, 2)]
    fitting = (way for way in ways if not flow(blocks, edition.text_area, way[1], style=way[0]).rest)
    style, columns = next(fitting, ways[-1])
    return running_pages(replace(edition, style=style), "build", TITLE, blocks, columns)


def _smaller(style: HouseStyle, share: float) -> HouseStyle:
    """The style with the letters of tables in a share of their size."""
    return replace(style, lettering=replace(style.lettering, small=style.lettering.small * share))


def _rows(edition: Edition) -> tuple[Row, ...]:
    rows: list[Row] = []
    group = ""
    for number, step in enumerate(edition.steps, start=1):
        here = _group(step, group)
        if here != group:
            group = here
            rows.append(Row((group,), group=True))
        words = step_words(edition, step)
        taken = "; ".join(filter(None, (_parts(edition, step), _fixings(edition, step))))
        rows.append(Row((str(number), words.title, taken, short_wait(edition, step))))
    return tuple(rows)


def _group(step: Step, before: str) -> str:
    """The part of the build a step belongs to; one of the maker's own stays where it comes."""
    if step.kind in (*PREPARED, "templates", "own"):
        return before or PREPARE
    if step.kind in ("dry fit", "sand", "stage", "level"):
        return PUT_TOGETHER
    return FINISH if step.kind in ("finish", "fittings", "supplies") else CUT


def _fixings(edition: Edition, step: Step) -> str:
    """Screws, dowels, hardware and the like that a step takes, with their number."""
    return ", ".join(f"{name.split(',')[0]} ({count})" for name, count in fixings_used(edition, step))


def _parts(edition: Edition, step: Step) -> str:
    """Parts that join the piece with their number; for work on single parts, their marks."""
    if step.stage is not None:
        return ", ".join(f"{mark} ({count})" for mark, _, count in parts_used(edition, step))
    return items_marked(edition, step)
