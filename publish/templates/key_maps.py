"""The first pages of a file of templates: how to print and join them, and a map of the sheets of each."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from publish.drawing.box import Box, Segment
from publish.drawing.flow import Block, Heading, Listing, Picture, flow
from publish.drawing.lettering import INLINE, fit, set_text, wrap
from publish.drawing.records import Record, box_of, rectangle
from publish.drawing.shift import moved
from publish.drawing.style import GREY
from publish.edition import Edition, Leaf
from publish.templates.ink import clear, drawn, near
from publish.templates.tile_sheet import Sheeted
from publish.templates.tiles import core
from publish.words.spelling import spelt
from publish.words.templates import HOW, about, serves

MAP_HEIGHT = 30.0  # mm at most
ROUND_IT = 14.0  # mm of the template's surroundings that its map shows
_TRIES = 16  # places along a cell that a number is tried at
AIR = 7.0  # mm below a card
TITLE = "Full-size templates"
GUTTER = 12.0


def leaves(edition: Edition, every: list[Sheeted]) -> list[Leaf]:
    """As many pages as it takes."""
    area = edition.text_area
    width = (area.width - GUTTER) / 2
    blocks: list[Block] = [
        Heading("Printing and joining"),
        Listing(tuple(spelt(edition, text) for text in HOW), first=1),
    ]
    for sheeted in every:
        blocks.append(_card(edition, sheeted, width))
    made: list[Leaf] = []
    while blocks:
        flowed = flow(blocks, area, 2, GUTTER, edition.style)
        blocks = list(flowed.rest)
        info = edition.info(TITLE, "TEMPLATES")
        level = None if made else 0
        made.append(Leaf(f"key-map-{len(made) + 1}", TITLE, flowed.records, info, level=level))
    return made


def _card(edition: Edition, sheeted: Sheeted, width: float) -> Picture:
    """What a template is and which parts it serves, over its map; kept together."""
    template, letters = sheeted.template, edition.style.lettering
    name, size = fit(sheeted.title, width, letters.body * 1.04, letters.small, "bold")
    y = -size
    records = set_text(name, 0.0, y, size, "bold")
    for text in (about(edition, template), *serves(template)):
        for line in wrap(text, width, letters.small, "regular", INLINE):
            y -= letters.small * letters.leading
            records += set_text(line, 0.0, y, letters.small, colour=GREY, fraction=INLINE)
    y -= 2.5
    drawing, height = _map(edition, sheeted, width)
    records += [moved(record, 0.0, y) for record in drawing]
    return Picture(tuple(records), height - y + AIR)


def _map(edition: Edition, sheeted: Sheeted, width: float) -> tuple[list[Record], float]:
    """The template in small with the sheets it is cut into, each with its number; top left at (0, 0); its height."""
    template, tiles = sheeted.template, sheeted.grid.tiles
    left, bottom, right, top = template.bounds
    view = Box(left, bottom, right, top).grown(ROUND_IT)
    scale = min(width / view.width, MAP_HEIGHT / view.height)
    pens, letters = edition.style.pens, edition.style.lettering
    lines = [
        Segment(*((v - (view.left, view.top)[n % 2]) * scale for n, v in enumerate(line))) for line in sheeted.lines
    ]
    records: list[Record] = []
    for tile in tiles:
        shown = core(tile, sheeted.grid.columns, sheeted.grid.rows)
        low, high = max(shown.left, view.left), min(shown.right, view.right)
        under, over = max(shown.bottom, view.bottom), min(shown.top, view.top)
        across, up = ((v - view.left) * scale for v in (low, high)), ((v - view.top) * scale for v in (under, over))
        cell = _box(*across, *up)
        records.append(rectangle(cell, pens.hidden))
        records += _numbered(str(sheeted.number(tile)), cell, lines, letters.small)
    records += drawn(template, view, (0.0, -view.height * scale), replace(pens, visible=pens.pictorial), scale)
    return records, view.height * scale


def _numbered(number: str, cell: Box, lines: list[Segment], size: float) -> list[Record]:
    """A sheet's number in its cell, nearest to the upper left where no line runs through it; there if there is none."""
    box = box_of(set_text(number, 0.0, 0.0, size, "semibold"))
    room = Box(cell.left + 0.8, cell.bottom + 0.8, cell.right - 0.8 - box.right, cell.top - 0.8 - box.top)
    steps = range(_TRIES + 1)
    places = [
        (room.left + room.width * across / _TRIES, room.top - room.height * down / _TRIES)
        for across, down in product(steps, steps)
    ]
    places.sort(key=lambda place: place[0] - room.left + room.top - place[1])
    near_by = near(cell, lines)
    free = (place for place in places if clear(box.moved(*place).grown(0.3), near_by))
    return set_text(number, *next(free, places[0]), size, "semibold", colour=GREY)


def _box(left: float, right: float, bottom: float, top: float) -> Box:
    return Box(left, bottom, right, top)
