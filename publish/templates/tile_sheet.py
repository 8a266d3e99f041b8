"""One sheet of a template: what shows in its window, how it joins its neighbours, and two bars to check it by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from model.loops import Flat
from model.templates import Template
from publish.drawing.box import Box, Segment, around
from publish.drawing.lettering import fit, set_text
from publish.drawing.records import Circle, Line, Record, rectangle
from publish.drawing.style import GREY, HouseStyle, Paper, points
from publish.templates.ink import clear, drawn, in_the_way, near
from publish.templates.tiles import OVERLAP, Grid, Tile, core
from publish.words.templates import CHECK, PRINT

EDGE = 10.0  # mm left blank round the sheet: common printers reach to 6.4 mm (from memory)
HEAD, FOOT, SIDE = 14.0, 9.0, 9.0  # mm kept above, below and to the left of the window
BARS = {"across": 100.0, "up": 101.6}  # mm: 100 mm, and 4 in
TICK = 3.0
MARK = 3.0  # mm, radius of a registration mark
KEY = (46.0, 10.0)  # mm, the little map of a sheet's place
CORNER = 13.0  # mm a mark keeps from the end of its seam: where four sheets meet the marks keep apart
_STEP = 4.0


@dataclass(frozen=True)
class Sheeted:
    """A template with the grid it is cut into, and the file's sheet number of each tile."""

    template: Template
    grid: Grid
    first: int
    title: str
    served: str

    @cached_property
    def lines(self) -> list[Segment]:
        """What lettering keeps clear of (template mm)."""
        return in_the_way(self.template)

    def number(self, tile: Tile) -> int:
        """The sheet a tile is on."""
        return self.first + self.grid.tiles.index(tile)


def window_of(paper: Paper) -> Box:
    """Where the template shows on a sheet (mm)."""
    edge = paper.box.grown(-EDGE)
    return Box(edge.left + SIDE, edge.bottom + FOOT, edge.right, edge.top - HEAD)


def tile_records(sheeted: Sheeted, tile: Tile, paper: Paper, total: int, style: HouseStyle) -> list[Record]:
    """Everything on one sheet."""
    area = window_of(paper)
    shift = area.left - tile.window.left, area.bottom - tile.window.bottom
    records = drawn(sheeted.template, tile.window, (area.left, area.bottom), style.pens)
    records += check_bars(paper, style)
    records += _head(sheeted, tile, paper, total, style)
    for neighbour, line in seams(sheeted, tile):
        records += _seam(sheeted, neighbour, line, shift, style)
    return records


def check_bars(paper: Paper, style: HouseStyle) -> list[Record]:
    """100 mm across the foot of the sheet and 4 in up its left side, the ticks at their very ends."""
    edge, pen, size = paper.box.grown(-EDGE), style.pens.visible, style.lettering.small
    x, y = edge.left + SIDE, edge.bottom + TICK / 2
    across, up = x + BARS["across"], y + BARS["up"]
    left = edge.left + TICK / 2
    return [
        Line(x, y, across, y, pen),
        *(Line(at, y - TICK / 2, at, y + TICK / 2, pen) for at in (x, across)),
        *set_text(CHECK["across"], x + BARS["across"] / 2, y + 1.2, size, "semibold", "centre"),
        Line(left, y, left, up, pen),
        *(Line(left - TICK / 2, at, left + TICK / 2, at, pen) for at in (y, up)),
        *set_text(CHECK["up"], left + 4.0, y + BARS["up"] / 2, size, "semibold", "centre", rotation=90),
    ]


def _head(sheeted: Sheeted, tile: Tile, paper: Paper, total: int, style: HouseStyle) -> list[Record]:
    """Title and what it serves on the left, where the sheet lies on the right, how to print at the foot."""
    edge, letters = paper.box.grown(-EDGE), style.lettering
    many = len(sheeted.grid.tiles) > 1
    room = edge.width - (KEY[0] + 36.0 if many else 36.0)
    name, size = fit(sheeted.title, room, letters.heading, points(8.0), "bold")
    served, small = fit(sheeted.served, room, letters.small, points(6.0))
    records: list[Record] = [
        *set_text(name, edge.left, edge.top - 4.6, size, "bold", colour=style.colours.headings),
        *set_text(served, edge.left, edge.top - 9.6, small, colour=GREY),
    ]
    right = edge.right - (KEY[0] + 3.0 if many else 0.0)
    place = f"Sheet {sheeted.number(tile)} / {total}"
    records += set_text(place, right, edge.top - 4.6, letters.small, "semibold", "right")
    if many:
        of = f"{sheeted.grid.tiles.index(tile) + 1} of {len(sheeted.grid.tiles)} of this template"
        records += set_text(of, right, edge.top - 9.6, letters.caption, anchor="right", colour=GREY)
        records += _key(sheeted.grid, tile, Box(edge.right - KEY[0], edge.top - KEY[1], edge.right, edge.top), style)
    left = edge.left + SIDE + BARS["across"] + 8.0
    words, size = fit(PRINT, edge.right - left, letters.small, points(6.0), "semibold")
    return [*records, *set_text(words, edge.right, edge.bottom + 1.0, size, "semibold", "right")]


def _key(grid: Grid, tile: Tile, box: Box, style: HouseStyle) -> list[Record]:
    """The grid in small, this sheet filled."""
    wide, high = tile.window.width - OVERLAP, tile.window.height - OVERLAP
    scale = min(box.width / (grid.columns * wide), box.height / (grid.rows * high))
    left, top = box.right - grid.columns * wide * scale, box.top
    records: list[Record] = []
    for other in sorted(grid.tiles, key=lambda other: other is tile):
        x, y = left + other.column * wide * scale, top - (other.row + 1) * high * scale
        cell = Box(x, y, x + wide * scale, y + high * scale)
        records.append(rectangle(cell, style.pens.cell, GREY if other is tile else None))
    return records


def seams(sheeted: Sheeted, tile: Tile) -> Iterator[tuple[Tile, Segment]]:
    """Each neighbour of a sheet with the middle line of what the two share (template mm)."""
    grid, inner = sheeted.grid, core(tile, sheeted.grid.columns, sheeted.grid.rows)
    window, half = tile.window, OVERLAP / 2
    places = {
        (0, -1): Segment(window.left + half, inner.bottom, window.left + half, inner.top),
        (0, 1): Segment(window.right - half, inner.bottom, window.right - half, inner.top),
        (-1, 0): Segment(inner.left, window.top - half, inner.right, window.top - half),
        (1, 0): Segment(inner.left, window.bottom + half, inner.right, window.bottom + half),
    }
    for (down, across), line in places.items():
        neighbour = grid.at(tile.row + down, tile.column + across)
        if neighbour is not None:
            yield neighbour, line


def _seam(sheeted: Sheeted, neighbour: Tile, line: Segment, shift: Flat, style: HouseStyle) -> list[Record]:
    """The dashed line to cut along, the marks on it, and the number of the sheet that joins there."""
    pens, (dx, dy) = style.pens, shift
    records: list[Record] = [Line(line.x0 + dx, line.y0 + dy, line.x1 + dx, line.y1 + dy, pens.hidden)]
    for x, y in marks_on(line, sheeted.lines):
        records += registration_mark((x + dx, y + dy), style)
    text = f"sheet {sheeted.number(neighbour)}"
    return [*records, *_seam_words(text, sheeted, line, shift, style)]


def registration_mark(at: Flat, style: HouseStyle) -> list[Record]:
    """A circle with a cross through it."""
    (x, y), pen = at, style.pens.leader
    return [
        Circle(x, y, MARK, pen),
        Line(x - MARK - 2.0, y, x + MARK + 2.0, y, pen),
        Line(x, y - MARK - 2.0, x, y + MARK + 2.0, pen),
    ]


def _along(line: Segment, margin: float) -> list[Flat]:
    """Places along an upright or level line, in steps, clear of its ends."""
    count = max(1, int((line.length - 2 * margin) / _STEP))
    shares = [(margin + (line.length - 2 * margin) * n / count) / line.length for n in range(count + 1)]
    return [(line.x0 + (line.x1 - line.x0) * s, line.y0 + (line.y1 - line.y0) * s) for s in shares]


def marks_on(line: Segment, lines: list[Segment]) -> list[Flat]:
    """Two places for registration marks on a seam: as far apart as may be, clear of the template's lines.

    They hang on the template alone, so that both sheets of a seam show them at the same places.
    """
    places = _along(line, MARK + CORNER)
    lines = near(line.box.grown(OVERLAP), lines)
    free = [(x, y) for x, y in places if clear(Box(x, y, x, y).grown(MARK + 2.5), lines)]
    found = free if len(free) > 1 else places
    return [found[0], found[-1]]


def _seam_words(text: str, sheeted: Sheeted, line: Segment, shift: Flat, style: HouseStyle) -> list[Record]:
    """The number of the sheet that joins, beside the seam where nothing is in the way; both sides are tried."""
    upright = line.x0 == line.x1
    size = style.lettering.caption
    lines = near(line.box.grown(OVERLAP), sheeted.lines)
    marks = [Box(x, y, x, y).grown(MARK + 3.0) for x, y in marks_on(line, lines)]
    for x, y in sorted(_along(line, 10.0), key=lambda p: abs(p[0] - line.x0) + abs(p[1] - line.y0)):
        for away in (1.2, -3.2):
            at = (x + away + (2.0 if upright else 0.0), y) if upright else (x, y + away)
            words = set_text(text, *at, size, colour=GREY, rotation=90 if upright else 0)
            box = around(word.box for word in words)
            if clear(box.grown(0.8), lines) and not any(box.meets(mark) for mark in marks):
                dx, dy = shift
                return set_text(text, at[0] + dx, at[1] + dy, size, colour=GREY, rotation=90 if upright else 0)
    return []
