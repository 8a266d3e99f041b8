"""Cutting something full size into sheets: windows that overlap, and what of a line shows in each.

All mm, in the template's own coordinates.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from model.loops import Flat, Stretch
from publish.drawing.box import Box

OVERLAP = 12.0  # mm that neighbouring sheets share
AIR = 2.0  # mm between what is drawn and the edge of the outermost windows
_INSIDE = 1e-9


@dataclass(frozen=True)
class Tile:
    """One sheet of a grid: its place, and what it shows."""

    row: int  # from the top
    column: int  # from the left
    window: Box


@dataclass(frozen=True)
class Grid:
    """The sheets of one template. `tiles` leaves out those on which nothing would be drawn."""

    columns: int
    rows: int
    tiles: tuple[Tile, ...]

    def at(self, row: int, column: int) -> Tile | None:
        """The sheet at a place; None where there is none."""
        return next((tile for tile in self.tiles if (tile.row, tile.column) == (row, column)), None)


def grid(stretches: Sequence[Stretch], size: tuple[float, float], width: float, height: float) -> Grid:
    """The sheets it takes to show all of something `size` mm large through windows of `width` x `height`."""
    columns, rows = _how_many(size[0] + 2 * AIR, width), _how_many(size[1] + 2 * AIR, height)
    left = (size[0] - _reach(columns, width)) / 2
    top = (size[1] + _reach(rows, height)) / 2
    tiles = []
    for row in range(rows):
        for column in range(columns):
            x, y = left + column * (width - OVERLAP), top - row * (height - OVERLAP)
            tile = Tile(row, column, Box(x, y - height, x + width, y))
            if any(True for _ in clipped(stretches, core(tile, columns, rows))):
                tiles.append(tile)
    return Grid(columns, rows, tuple(tiles))


def core(tile: Tile, columns: int, rows: int) -> Box:
    """What is left of a window when it is trimmed along the middle of each overlap: cores meet edge to edge."""
    half, window = OVERLAP / 2, tile.window
    return Box(
        window.left + (half if tile.column else 0.0),
        window.bottom + (half if tile.row < rows - 1 else 0.0),
        window.right - (half if tile.column < columns - 1 else 0.0),
        window.top - (half if tile.row else 0.0),
    )


def clipped(stretches: Iterable[Stretch], window: Box) -> Iterable[Stretch]:
    """The pieces of lines and arcs that lie in a window."""
    for stretch in stretches:
        shares = [0.0, *sorted(_crossings(stretch, window)), 1.0]
        start: float | None = None
        for a, b in pairwise(shares):
            if b - a < _INSIDE:
                continue
            within = _holds(window, stretch.at((a + b) / 2))
            if within and start is None:
                start = a
            if not within and start is not None:
                yield stretch.part(start, a)
                start = None
        if start is not None:
            yield stretch if start == 0.0 else stretch.part(start, 1.0)


def _how_many(long: float, window: float) -> int:
    return 1 if long <= window else math.ceil((long - OVERLAP) / (window - OVERLAP) - 1e-9)


def _reach(count: int, window: float) -> float:
    return count * (window - OVERLAP) + OVERLAP


def _holds(window: Box, point: Flat) -> bool:
    return window.left <= point[0] <= window.right and window.bottom <= point[1] <= window.top


def _crossings(stretch: Stretch, window: Box) -> list[float]:
    """Shares of the way at which a stretch meets the four lines of a window."""
    found: list[float] = []
    for axis, places in ((0, (window.left, window.right)), (1, (window.bottom, window.top))):
        for place in places:
            found += _meets_round(stretch, axis, place) if stretch.is_round else _meets(stretch, axis, place)
    return [share for share in found if _INSIDE < share < 1 - _INSIDE]


def _meets(stretch: Stretch, axis: int, place: float) -> list[float]:
    run = stretch.end[axis] - stretch.start[axis]
    return [(place - stretch.start[axis]) / run] if abs(run) > 1e-12 else []


def _meets_round(stretch: Stretch, axis: int, place: float) -> list[float]:
    centre, radius, sweep = stretch.centre, stretch.radius, stretch.sweep
    off = (place - centre[axis]) / radius
    if abs(off) > 1:
        return []
    begin = math.atan2(stretch.start[1] - centre[1], stretch.start[0] - centre[0])
    base = 0.0 if axis == 0 else math.pi / 2
    turns = (base + way * math.acos(off) for way in (1, -1))
    return [((angle - begin) * math.copysign(1, sweep)) % (2 * math.pi) / abs(sweep) for angle in turns]
