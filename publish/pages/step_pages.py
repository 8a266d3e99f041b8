"""The steps, two to a page, each with its picture."""

from __future__ import annotations

import math

from model.piece import Item
from model.steps import Step
from publish.drawing.box import Box
from publish.drawing.flow import Block, Caution, Paragraph, flow
from publish.drawing.lettering import set_text, wrap
from publish.drawing.records import Line, Record, rectangle
from publish.drawing.style import Pen, points
from publish.edition import Edition, Leaf
from publish.pictures import set_pictorial
from publish.words.names import item_name
from publish.words.step_words import StepWords
from publish.words.steps import step_words

GUTTER = 12.0
LARGEST_PICTURE = 96.0  # mm high
LEAST_PICTURE = 34.0
HEAD = 9.5


def leaves(edition: Edition) -> list[Leaf]:
    """As many pages as the steps need."""
    area = edition.text_area
    width = (area.width - GUTTER) / 2
    pairs = [edition.steps[i : i + 2] for i in range(0, len(edition.steps), 2)]
    made = []
    for number, pair in enumerate(pairs):
        records: list[Record] = []
        for column, step in enumerate(pair):
            left = area.left + column * (width + GUTTER)
            box = Box(left, area.bottom, left + width, area.top)
            records += _column(edition, step, 2 * number + column + 1, box)
        middle = area.left + width + GUTTER / 2
        if len(pair) > 1:
            records.append(Line(middle, area.bottom, middle, area.top, edition.style.pens.rule))
        first, last = 2 * number + 1, 2 * number + len(pair)
        title = f"Steps {first} and {last}" if last > first else f"Step {first}"
        made.append(Leaf(f"steps-{number + 1}", title, tuple(records), edition.info(title, "STEPS"), level=0))
    return made


def _column(edition: Edition, step: Step, number: int, box: Box) -> list[Record]:
    words = step_words(edition, step)
    records = _head(edition, words, number, box)
    below = Box(box.left, box.bottom, box.right, box.top - _head_height(edition, words, box))
    blocks: list[Block] = [Caution(words.caution)] if words.caution else []
    blocks += [Paragraph(text) for text in words.text]
    needed = below.top - flow(blocks, below, style=edition.style).bottom
    height = min(LARGEST_PICTURE, below.height - needed - 3.0)
    if height < LEAST_PICTURE:
        raise RuntimeError(f"step {number} has more words than its column holds")
    picture = Box(below.left, below.top - height, below.right, below.top)
    records += _picture(edition, step, picture)
    text = Box(below.left, below.bottom, below.right, picture.bottom - 3.0)
    return records + list(flow(blocks, text, style=edition.style).records)


def _head(edition: Edition, words: StepWords, number: int, box: Box) -> list[Record]:
    """A box to tick, the number and the title."""
    letters = edition.style.lettering
    y = box.top - letters.heading
    side = 4.0
    records: list[Record] = [rectangle(Box(box.left, y - 0.4, box.left + side, y - 0.4 + side), Pen(points(0.8)))]
    records += set_text(str(number), box.left + side + 2.5, y, letters.heading, "bold")
    for line in wrap(words.title, box.width - 16.0, letters.heading, "bold"):
        records += set_text(line, box.left + side + 10.0, y, letters.heading, "bold")
        y -= letters.heading * 1.2
    return records


def _head_height(edition: Edition, words: StepWords, box: Box) -> float:
    letters = edition.style.lettering
    lines = len(wrap(words.title, box.width - 16.0, letters.heading, "bold"))
    return HEAD + (lines - 1) * letters.heading * 1.2


def _picture(edition: Edition, step: Step, area: Box) -> list[Record]:
    if step.stage_number is not None:
        return set_pictorial(edition.drawn.stages[step.stage_number], area, edition.style)[0]
    if step.kind in ("dry fit", "finish", "fittings", "supplies"):
        return set_pictorial(edition.drawn.whole, area, edition.style)[0]
    return _items(edition, step.items, area)


def _items(edition: Edition, items: tuple[Item, ...], area: Box) -> list[Record]:
    """The parts worked on, each with its mark, in one or two columns."""
    columns = 1 if len(items) <= 3 else 2
    rows = math.ceil(len(items) / columns)
    wide, high = area.width / columns, area.height / rows
    size = edition.style.lettering.small
    records: list[Record] = []
    for n, item in enumerate(items):
        column, row = divmod(n, rows)
        left, top = area.left + column * wide, area.top - row * high
        records += set_text(item.mark, left, top - high / 2 - size * 0.33, size * 1.15, "bold")
        cell = Box(left + 8.0, top - high + 4.5, left + wide - 4.0, top - 1.0)
        records += set_pictorial(edition.drawn.parts[item.mark].picture, cell, edition.style)[0]
        name = f"{item_name(edition.piece, item)}, {item.quantity}"
        records += set_text(name, left + 8.0, top - high + 1.2, size * 0.9)
    return records
