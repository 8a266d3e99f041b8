"""The steps, two to a page, each with its picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain

from model.piece import Item
from model.steps import Step
from publish.drawing.box import Box
from publish.drawing.flow import Block, Caution, Gap, Paragraph, flow
from publish.drawing.lettering import set_text, wrap
from publish.drawing.records import Line, Record, rectangle
from publish.drawing.style import Pen, points
from publish.edition import Edition, Leaf
from publish.pages.worked_rows import columns_tried, worked_rows
from publish.pictures import Pictorial, set_pictorial
from publish.words.milestones import used_words
from publish.words.steps import step_words
from publish.words.tools import tool_words

GUTTER = 12.0
LARGEST_PICTURE = 96.0  # mm high
LEAST_PICTURE = 34.0
LONG_STEP_PICTURE = 70.0  # of a step whose words go on in another column
HEAD = 9.5
AIR = 3.0  # mm below a picture
WHOLE = ("finish", "level", "dry fit", "sand")  # steps on the piece as it stands
ALL, MANY = ("mill", "size"), 8  # steps on all parts, which are shown apart when there are more of them than that


@dataclass(frozen=True)
class _Column:
    """Half a page: the number of the step it belongs to, and what stands in it."""

    number: int
    records: tuple[Record, ...]


def leaves(edition: Edition) -> list[Leaf]:
    """As many pages as the steps need."""
    columns: list[_Column] = []
    for number, step in enumerate(edition.steps, start=1):
        _fill(edition, step, number, columns)
    pairs = [columns[i : i + 2] for i in range(0, len(columns), 2)]
    made = []
    for page, pair in enumerate(pairs, start=1):
        records = [record for column in pair for record in column.records]
        if len(pair) > 1:
            area = edition.text_area
            middle = (area.left + area.right) / 2
            records.append(Line(middle, area.bottom, middle, area.top, edition.style.pens.rule))
        first, last = pair[0].number, pair[-1].number
        title = f"Steps {first} and {last}" if last > first else f"Step {first}"
        made.append(Leaf(f"steps-{page}", title, tuple(records), edition.info(title, "STEPS"), level=0))
    return made


def _fill(edition: Edition, step: Step, number: int, columns: list[_Column]) -> None:
    """Add the column of one step, and those on which it goes on where its words do not fit under its picture."""
    words = step_words(edition, step)
    blocks: list[Block] = [Caution(words.caution)] if words.caution else []
    blocks += [Paragraph(text) for text in words.text]
    blocks += [Paragraph(f"Wait: {words.wait}", "semibold")] if words.wait else []
    blocks += [Paragraph(text, small=True) for text in used_words(edition, step)]
    blocks += [Paragraph(text, small=True, grey=True) for text in tool_words(edition, step)]
    box = _box(edition, len(columns))
    records, text = _head(edition, words.title, number, box)
    whole = flow(blocks, text, style=edition.style)
    height = min(LARGEST_PICTURE, whole.bottom - text.bottom - AIR)
    if whole.rest or height < LEAST_PICTURE:
        height = LONG_STEP_PICTURE
    items = _worked(edition, step)
    if items:
        blocks = _under_rows(edition, items, blocks, text, height)
    else:
        records += _picture(edition, step, Box(text.left, text.top - height, text.right, text.top))
        text = Box(text.left, text.bottom, text.right, text.top - height - AIR)
    while True:
        flowed = flow(blocks, text, style=edition.style)
        columns.append(_Column(number, (*records, *flowed.records)))
        if not flowed.rest:
            return
        blocks = list(flowed.rest)
        records, text = _head(edition, f"{words.title} (continued)", None, _box(edition, len(columns)))


def _under_rows(
    edition: Edition, items: Mapping[Item, Pictorial], blocks: list[Block], room: Box, height: float
) -> list[Block]:
    """The words under rows of pictures, these closer where that keeps a last line from going on alone."""
    ways = (
        [*worked_rows(edition, items, room.width, high, columns), Gap(AIR), *blocks]
        for columns in columns_tried(edition, items, room.width)
        for high in (height, LEAST_PICTURE)
    )
    usual = next(ways)
    return next((way for way in chain([usual], ways) if not flow(way, room, style=edition.style).rest), usual)


def _box(edition: Edition, column: int) -> Box:
    """The left or the right half of a page."""
    area = edition.text_area
    width = (area.width - GUTTER) / 2
    left = area.left + (column % 2) * (width + GUTTER)
    return Box(left, area.bottom, left + width, area.top)


def _head(edition: Edition, title: str, number: int | None, box: Box) -> tuple[list[Record], Box]:
    """A box to tick, the number and the title; and the room below them. Where a step goes on, the title alone."""
    letters = edition.style.lettering
    y = box.top - letters.heading
    side = 4.0
    records: list[Record] = []
    if number is not None:
        records.append(rectangle(Box(box.left, y - 0.4, box.left + side, y - 0.4 + side), Pen(points(0.8))))
        records += set_text(str(number), box.left + side + 2.5, y, letters.heading, "bold")
    lines = wrap(title, box.width - 16.0, letters.heading, "bold")
    for n, line in enumerate(lines):
        records += set_text(line, box.left + side + 10.0, y - n * letters.heading * 1.2, letters.heading, "bold")
    taken = HEAD + (len(lines) - 1) * letters.heading * 1.2
    return records, Box(box.left, box.bottom, box.right, box.top - taken)


def _picture(edition: Edition, step: Step, area: Box) -> list[Record]:
    """The picture of a stage, or of the piece as it is when the step is done."""
    drawn = edition.drawn
    if step.stage_number is not None:
        return _stage(edition, drawn.stages[step.stage_number], area)
    pictures = {
        "mill": drawn.apart[0].picture,
        "size": drawn.apart[0].picture,
        "finish": drawn.bare,
        "level": drawn.levelled,
    }
    pictures |= {"dry fit": drawn.dry, "sand": drawn.dry}
    return set_pictorial(pictures.get(step.kind, drawn.whole), area, edition.style)[0]


def _worked(edition: Edition, step: Step) -> dict[Item, Pictorial]:
    """The parts worked on, each with what is done to it marked; none where the whole piece is shown."""
    items = [item for one in step.every for item in one.items]
    if step.stage is not None or step.kind in WHOLE or (step.kind in ALL and len(items) > MANY):
        return {}
    shown: dict[Item, Pictorial] = {}
    for one in step.every:
        for item in one.items:
            usual = edition.drawn.parts[item.mark].picture
            shown.setdefault(item, edition.drawn.worked.get((item.mark, one.kind), usual))
    return shown


def _stage(edition: Edition, picture: Pictorial, area: Box) -> list[Record]:
    """The picture of a stage, and a line that says how to read it."""
    said = [picture.said] if picture.said else []
    said += ["Hatched: glue."] if picture.hatched else []
    said += ["Black arrows: clamps."] if picture.clamps else []
    size = edition.style.lettering.small
    room = 1.6 * size if said else 0.0
    records = set_pictorial(picture, Box(area.left, area.bottom + room, area.right, area.top), edition.style)[0]
    return records + set_text(" ".join(said), area.left, area.bottom + 0.3 * size, size)
