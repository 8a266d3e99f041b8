"""Where a template's own name goes: inside its outline, on every sheet, so that it is still known when cut out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product

from model.loops import Flat
from model.templates import Template
from publish.drawing.box import Box, Segment, around
from publish.drawing.lettering import set_text, text_width
from publish.drawing.records import Line, Record, arrow_head
from publish.drawing.style import GREY, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT
from publish.templates.ink import CROSS, clear, near

ARROW = 26.0  # mm, the arrow along the grain
SIZES = (5.0, 4.0, 3.2, 2.6)  # mm, the em
_CLEAR = 1.2
_ACROSS, _UP = 24, 9  # places tried


def name_records(
    template: Template, words: str, grain: bool, inner: Box, shift: Flat, lines: list[Segment], style: HouseStyle
) -> list[Record]:
    """The name in one line, an arrow along the grain after it, in the largest letters that find a place in `inner`."""
    left, bottom, right, top = template.bounds
    room = Box(max(left, inner.left), max(bottom, inner.bottom), min(right, inner.right), min(top, inner.top))
    # small pieces have their name without the arrow
    for arrow, size in product((True, False) if grain else (False,), SIZES):
        wide = text_width(words, size, "semibold") + (ARROW + 4.0 if arrow else 0.0)
        box = free_box(template, room.grown(-_CLEAR), wide, size * CAP_HEIGHT, lines)
        if box is not None:
            return _set(words, arrow, size, box.moved(*shift), style)
    return []


def end_records(template: Template, inner: Box, shift: Flat, lines: list[Segment], style: HouseStyle) -> list[Record]:
    """Which end of the part lies to the left, said there: the way round cannot be told from most outlines."""
    end = template.end_at_left
    left, bottom, _, top = template.bounds
    if end is None or not inner.left <= left <= inner.right:
        return []
    size = style.lettering.small
    words = set_text(f"{end} end", 0.0, 0.0, size, colour=GREY, rotation=90)
    box = around(word.box for word in words)
    room = Box(left + 2.0, max(bottom, inner.bottom), left + 25.0, min(top, inner.top))
    found = free_box(template, room, box.width, box.height, lines, leftmost=True)
    if found is None:
        return []
    at = found.left - box.left + shift[0], found.bottom - box.bottom + shift[1]
    return set_text(f"{end} end", *at, size, colour=GREY, rotation=90)


def hole_records(
    template: Template,
    size_of: Callable[[float], str],
    inner: Box,
    shift: Flat,
    lines: list[Segment],
    style: HouseStyle,
) -> list[Record]:
    """The size beside each hole, where they are not all of one."""
    sizes = [size_of(diameter) for _, diameter in template.holes]
    if len(set(sizes)) < 2:
        return []
    records: list[Record] = []
    for ((x, y), diameter), said in zip(template.holes, sizes, strict=True):
        if inner.left <= x <= inner.right and inner.bottom <= y <= inner.top:
            off = diameter / 2 + CROSS + 1.5
            words = set_text(f"Ø {said}", 0.0, 0.0, style.lettering.small)
            box = around(word.box for word in words)
            places = [(x + off, y + 1.0), (x - off - box.width, y + 1.0), (x + 1.0, y + off), (x + 1.0, y - off - 3.0)]
            boxes = [(place, box.moved(*place)) for place in places]
            at = next(
                (p for p, b in boxes if inner.holds(b) and clear(b.grown(0.5), near(b.grown(2.0), lines))), places[0]
            )
            records += set_text(f"Ø {said}", at[0] + shift[0], at[1] + shift[1], style.lettering.small)
    return records


def free_box(
    template: Template, room: Box, wide: float, high: float, lines: list[Segment], leftmost: bool = False
) -> Box | None:
    """A box of that size on the wood of a template and clear of its lines, nearest to the middle of `room`."""
    if room.width < wide or room.height < high:
        return None
    wanted = (room.left, room.centre[1]) if leftmost else room.centre
    lines = near(room.grown(2 * _CLEAR), lines)
    boxes = [Box(x, y, x + wide, y + high) for x, y in _corners(room, wide, high)]
    for box in sorted(boxes, key=lambda b: abs(b.centre[0] - wanted[0]) + 3 * abs(b.centre[1] - wanted[1])):
        if clear(box.grown(_CLEAR), lines) and _on_wood(template, box.centre):
            return box
    return None


def _corners(room: Box, wide: float, high: float) -> Iterator[Flat]:
    for column in range(_ACROSS + 1):
        for row in range(_UP + 1):
            yield (
                room.left + (room.width - wide) * column / _ACROSS,
                room.bottom + (room.height - high) * row / _UP,
            )


def _on_wood(template: Template, point: Flat) -> bool:
    return any(rim.holds(point) for rim in template.outline) and not any(
        opening.holds(point) for opening in template.openings
    )


def _set(words: str, grain: bool, size: float, box: Box, style: HouseStyle) -> list[Record]:
    records = set_text(words, box.left, box.bottom, size, "semibold")
    if not grain:
        return records
    y, length = box.centre[1], style.spacing.arrow_length
    tips = (box.right - ARROW, y), (box.right, y)
    return [
        *records,
        Line(*tips[0], *tips[1], style.pens.dimension),
        arrow_head(tips[0], tips[1], length, style.spacing.arrow_width),
        arrow_head(tips[1], tips[0], length, style.spacing.arrow_width),
    ]
