"""Running text: headings, paragraphs, lists, cautions, tables and ready-made pictures, poured into columns of a page.

What does not fit comes back as blocks for the next page. Strings are plain text; there is no markup.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from publish.drawing.box import Box
from publish.drawing.lettering import INLINE, set_text, wrap
from publish.drawing.records import Record, polyline, rectangle
from publish.drawing.shift import moved
from publish.drawing.style import BLACK, CAUTION, GREY, HOUSE, WHITE, Colour, HouseStyle, Pen, points
from publish.drawing.table import Column, Row, set_table
from publish.drawing.typeface import CAP_HEIGHT, FaceStyle

CONTINUED = " (continued)"
_CAUTION_TINT: Colour = (0.995, 0.955, 0.92)


@dataclass(frozen=True)
class Heading:
    """A heading; `level` 1 is the larger."""

    text: str
    level: int = 1


@dataclass(frozen=True)
class Paragraph:
    """A paragraph of body text; `small` for asides."""

    text: str
    face: FaceStyle = "regular"
    small: bool = False
    grey: bool = False


@dataclass(frozen=True)
class Listing:
    """A list, each item a paragraph: bullets, or numbers from `first` when that is given; `boxes` to be ticked."""

    items: tuple[str, ...]
    first: int | None = None
    boxes: bool = False


@dataclass(frozen=True)
class Caution:
    """A warning in a box of its own, kept whole; it stands before the act it is about (IEC/IEEE 82079-1)."""

    text: str
    word: str = "CAUTION"


@dataclass(frozen=True)
class TableBlock:
    """A table as wide as the column."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    widths: tuple[float, ...] | None = None


@dataclass(frozen=True)
class Picture:
    """Records made beforehand with their top left corner at (0, 0), `height` mm high; kept whole."""

    records: tuple[Record, ...]
    height: float


@dataclass(frozen=True)
class Gap:
    """Air, mm; dropped at the top of a column."""

    height: float


Block = Heading | Paragraph | Listing | Caution | TableBlock | Picture | Gap


class Laid(NamedTuple):
    """One block laid: its records, the height used, mm, and what is left of it (None: all laid)."""

    records: list[Record]
    height: float
    rest: Block | None


@dataclass(frozen=True)
class Flowed:
    """The records of one area, the blocks left over, and the lowest y used in the last column."""

    records: tuple[Record, ...]
    rest: tuple[Block, ...]
    bottom: float


@dataclass(frozen=True)
class _Slot:
    """Where a block may go: left edge, top, width, height there is; `fresh` at the top of a column."""

    x: float
    top: float
    width: float
    room: float
    style: HouseStyle
    fresh: bool


def _lines(
    lines: Sequence[str], slot: _Slot, size: float, face: FaceStyle, colour: Colour = BLACK, indent: float = 0.0
) -> list[Record]:
    step = size * slot.style.lettering.leading
    first = slot.top - step / 2 - CAP_HEIGHT * size / 2
    return [
        r
        for n, line in enumerate(lines)
        for r in set_text(line, slot.x + indent, first - n * step, size, face, colour=colour, fraction=INLINE)
    ]


def _lay_heading(block: Heading, slot: _Slot) -> Laid | None:
    letters = slot.style.lettering
    size, air = (letters.heading, 3.4) if block.level == 1 else (letters.body * 1.04, 2.2)
    air = 0.0 if slot.fresh else air
    lines = wrap(block.text, slot.width, size, "bold", INLINE)
    height = len(lines) * size * letters.leading
    if air + height + 2 * letters.body * letters.leading > slot.room:
        return None
    colour = slot.style.colours.headings
    return Laid(_lines(lines, replace(slot, top=slot.top - air), size, "bold", colour), air + height + 0.8, None)


def _lay_paragraph(block: Paragraph, slot: _Slot) -> Laid | None:
    letters = slot.style.lettering
    size = letters.small if block.small else letters.body
    step = size * letters.leading
    lines = wrap(block.text, slot.width, size, block.face, INLINE)
    fitting = int((slot.room + 1e-6) / step)
    colour = GREY if block.grey else BLACK
    if fitting >= len(lines):
        return Laid(_lines(lines, slot, size, block.face, colour), len(lines) * step + 0.38 * size, None)
    # Two lines at least on either side of a break: no line of a paragraph stands alone.
    fitting = min(fitting, len(lines) - 2)
    if fitting < 2:
        return None
    rest = replace(block, text=" ".join(lines[fitting:]))
    return Laid(_lines(lines[:fitting], slot, size, block.face, colour), fitting * step, rest)


def _marker(block: Listing, n: int, slot: _Slot, size: float, indent: float) -> list[Record]:
    middle = slot.top - size * slot.style.lettering.leading / 2
    baseline = middle - CAP_HEIGHT * size / 2
    if block.boxes:
        half = CAP_HEIGHT * size / 2
        return [rectangle(Box(slot.x, middle - half, slot.x + 2 * half, middle + half), Pen(points(0.7)))]
    if block.first is None:
        return set_text("•", slot.x + 0.3 * size, baseline, size)
    return set_text(f"{block.first + n}.", slot.x + indent - 0.45 * size, baseline, size, "semibold", "right")


def _lay_listing(block: Listing, slot: _Slot) -> Laid | None:
    letters = slot.style.lettering
    size, step = letters.body, letters.body * letters.leading
    indent = (1.7 if block.first is not None else 1.35) * size
    records: list[Record] = []
    used = 0.0
    for n, item in enumerate(block.items):
        lines = wrap(item, slot.width - indent, size, "regular", INLINE)
        height = len(lines) * step + 0.22 * size
        here = replace(slot, top=slot.top - used)
        if used + len(lines) * step > slot.room:
            if n:
                first = None if block.first is None else block.first + n
                return Laid(records, used, replace(block, items=block.items[n:], first=first))
            return None
        records += _marker(block, n, here, size, indent) + _lines(lines, here, size, "regular", indent=indent)
        used += height
    return Laid(records, used + 0.25 * size, None)


def _lay_caution(block: Caution, slot: _Slot) -> Laid | None:
    letters = slot.style.lettering
    size, step = letters.body, letters.body * letters.leading
    pad, indent = 2.4, 9.0
    lines = wrap(block.text, slot.width - indent - pad, size, "regular", INLINE)
    height = (len(lines) + 1) * step + 2 * pad
    if height + 2.0 > slot.room:
        return None
    box = Box(slot.x, slot.top - height, slot.x + slot.width, slot.top)
    inside = replace(slot, x=slot.x + indent, top=slot.top - pad)
    return Laid(
        [
            rectangle(box, Pen(points(0.7), CAUTION), _CAUTION_TINT),
            *_warning_sign(slot.x + 4.6, slot.top - pad - step * 0.95, 5.0),
            *_lines([block.word], inside, size, "bold", CAUTION),
            *_lines(lines, replace(inside, top=inside.top - step), size, "regular"),
        ],
        height + 2.6,
        None,
    )


def _warning_sign(x: float, y: float, side: float) -> list[Record]:
    """The general warning sign (ISO 7010 W001): an exclamation mark in a triangle about (`x`, `y`)."""
    low, high = y - side * 0.33, y + side * 0.53
    corners = ((x - side / 2, low), (x + side / 2, low), (x, high))
    return [
        polyline(corners, Pen(points(0.9), CAUTION), CAUTION, closed=True),
        *set_text("!", x, low + side * 0.13, side * 0.82, "bold", "centre", WHITE),
    ]


def _lay_table(block: TableBlock, slot: _Slot) -> Laid | None:
    area = Box(slot.x, slot.top - slot.room, slot.x + slot.width, slot.top)
    size = slot.style.lettering.small
    part = set_table(block.columns, block.rows, area, size, slot.style, widths=block.widths)
    if part.box is None:
        return None
    rest = replace(block, rows=_named_again(block.rows, part.rest)) if part.rest else None
    return Laid(list(part.records), part.box.height + 2.5, rest)


def _named_again(rows: tuple[Row, ...], rest: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows left over; where a group is broken off, its name stands above the rest of it too."""
    groups = [row.cells[0] for row in rows[: len(rows) - len(rest)] if row.group]
    if not groups or rest[0].group:
        return rest
    name = groups[-1].removesuffix(CONTINUED)
    return (Row((name + CONTINUED,), group=True), *rest)


def _lay_picture(block: Picture, slot: _Slot) -> Laid | None:
    if block.height > slot.room:
        return None
    return Laid([moved(r, slot.x, slot.top) for r in block.records], block.height, None)


def _lay_gap(block: Gap, slot: _Slot) -> Laid | None:
    return Laid([], min(block.height, slot.room), None)


_LAYERS: dict[type, Callable[[Any, _Slot], Laid | None]] = {
    Heading: _lay_heading,
    Paragraph: _lay_paragraph,
    Listing: _lay_listing,
    Caution: _lay_caution,
    TableBlock: _lay_table,
    Picture: _lay_picture,
    Gap: _lay_gap,
}


def flow(
    blocks: Sequence[Block], area: Box, columns: int = 1, gutter: float = 9.0, style: HouseStyle = HOUSE
) -> Flowed:
    """Pour `blocks` into `area`, column by column from the left; what is left over is for the next area.

    ValueError for a block that no empty column of this area can hold, so that a caller never turns pages for ever.
    """
    width = (area.width - (columns - 1) * gutter) / columns
    waiting = list(blocks)
    records: list[Record] = []
    bottom = area.top
    for n in range(columns):
        top = area.top
        while waiting:
            block = waiting[0]
            fresh = top == area.top
            if fresh and isinstance(block, Gap):
                waiting.pop(0)
                continue
            slot = _Slot(area.left + n * (width + gutter), top, width, top - area.bottom, style, fresh)
            laid = _LAYERS[type(block)](block, slot)
            if laid is None:
                if fresh:
                    raise ValueError(f"a {type(block).__name__.lower()} too large for an empty column")
                break
            records += laid.records
            top -= laid.height
            waiting[:1] = [laid.rest] if laid.rest else []
            if laid.rest:
                break
        bottom = max(top, area.bottom)
    return Flowed(tuple(records), tuple(waiting), bottom)
