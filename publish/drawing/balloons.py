"""Mark balloons round a pictorial view: a circle with the mark, the quantity beside it, a straight leader to its part.

The circles stand clear of the view, leaders end in a dot inside their part and never cross (ISO 6433, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from model.cache import kept
from publish.drawing.balloon_costs import CLEAR, BalloonCosts
from publish.drawing.box import Box, Point, Segment, segment_meets_box
from publish.drawing.lettering import set_text, text_width
from publish.drawing.records import Anchor, Circle, Line, Record
from publish.drawing.search import Search
from publish.drawing.style import BLACK, HOUSE, WHITE, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT

Points = np.ndarray[Any, np.dtype[np.float64]]
Cells = np.ndarray[Any, np.dtype[np.int64]]

_CELL = 1.0
_GRID = 3.0
_SECTORS = 24
_KEEP_A_SECTOR = 8
_OVER_VIEW_COST = 1.0
_SHORTEST = 5.0


def _reached(low: Points, high: Points) -> tuple[Cells, Cells]:
    """The first cell that each stretch (mm) reaches, and the one past its last."""
    first, last = np.floor(low / _CELL), np.ceil(high / _CELL)
    return np.maximum(first, 0).astype(np.int64), np.maximum(last, 0).astype(np.int64)


@dataclass(frozen=True)
class BalloonWish:
    """A mark for the part seen at `anchor` (paper mm, inside the part); `quantity` such as "×2", or empty."""

    mark: str
    anchor: Point
    quantity: str = ""


class Occupied:
    """Where a view has ink or parts: a grid of cells over the free area, asked about boxes and lines."""

    def __init__(self, free: Box, boxes: Sequence[Box] = ()):
        self.free = free
        columns, rows = math.ceil(free.width / _CELL), math.ceil(free.height / _CELL)
        self.cells: np.ndarray[Any, np.dtype[np.bool_]] = np.zeros((rows, columns), dtype=bool)
        for box in boxes:
            (r0, r1), (c0, c1) = self._rows(box), self._columns(box)
            self.cells[r0:r1, c0:c1] = True

    def add_grid(self, grid: np.ndarray[Any, np.dtype[np.bool_]], box: Box) -> None:
        """Take over a boolean grid (rows from the bottom, columns from the left) that covers `box` on paper."""
        wide, high = box.width / grid.shape[1], box.height / grid.shape[0]
        rows, columns = np.nonzero(grid)
        y, x = box.bottom + np.arange(grid.shape[0]) * high, box.left + np.arange(grid.shape[1]) * wide
        r0, r1 = _reached(y - self.free.bottom, y + high - self.free.bottom)
        c0, c1 = _reached(x - self.free.left, x + wide - self.free.left)
        for up in range(int((r1 - r0).max())):
            for over in range(int((c1 - c0).max())):
                r, c = (r0 + up)[rows], (c0 + over)[columns]
                on = (r < np.minimum(r1[rows], len(self.cells))) & (c < np.minimum(c1[columns], self.cells.shape[1]))
                self.cells[r[on], c[on]] = True

    def add_line(self, line: Segment) -> None:
        """Mark the cells that a line runs through."""
        for t in np.linspace(0.0, 1.0, max(2, math.ceil(2 * line.length / _CELL))):
            x, y = line.x0 + t * (line.x1 - line.x0), line.y0 + t * (line.y1 - line.y0)
            spot = Box(x, y, x, y)
            (r0, _), (c0, _) = self._rows(spot), self._columns(spot)
            self.cells[r0 : r0 + 1, c0 : c0 + 1] = True

    def _rows(self, box: Box) -> tuple[int, int]:
        low, high = (box.bottom - self.free.bottom) / _CELL, (box.top - self.free.bottom) / _CELL
        return max(0, math.floor(low)), max(0, math.ceil(high))

    def _columns(self, box: Box) -> tuple[int, int]:
        low, high = (box.left - self.free.left) / _CELL, (box.right - self.free.left) / _CELL
        return max(0, math.floor(low)), max(0, math.ceil(high))

    def empty(self, box: Box) -> bool:
        """True when no cell that `box` touches is occupied."""
        (r0, r1), (c0, c1) = self._rows(box), self._columns(box)
        return not self.cells[r0:r1, c0:c1].any()

    def empty_about(self, centres: Points, around: Box) -> np.ndarray[Any, np.dtype[np.bool_]]:
        """For each of `centres` (n, 2): whether the box `around`, moved there, lies in the free area and is empty."""
        left, bottom = centres[:, 0] + around.left, centres[:, 1] + around.bottom
        right, top = centres[:, 0] + around.right, centres[:, 1] + around.top
        free = self.free
        inside = (left >= free.left) & (right <= free.right) & (bottom >= free.bottom) & (top <= free.top)
        sums = np.pad(self.cells.cumsum(0, dtype=np.int64).cumsum(1), ((1, 0), (1, 0)))
        rows, columns = self.cells.shape
        r0 = np.clip(np.floor((bottom - free.bottom) / _CELL).astype(int), 0, rows)
        r1 = np.clip(np.ceil((top - free.bottom) / _CELL).astype(int), 0, rows)
        c0 = np.clip(np.floor((left - free.left) / _CELL).astype(int), 0, columns)
        c1 = np.clip(np.ceil((right - free.left) / _CELL).astype(int), 0, columns)
        occupied = sums[r1, c1] - sums[r0, c1] - sums[r1, c0] + sums[r0, c0]
        return np.asarray(inside & (occupied == 0), dtype=np.bool_)

    def length_over(self, line: Segment) -> float:
        """How many mm of `line` run over occupied cells."""
        count = max(2, math.ceil(line.length / _CELL))
        t = (np.arange(count) + 0.5) / count
        c = ((line.x0 + t * (line.x1 - line.x0) - self.free.left) / _CELL).astype(int)
        r = ((line.y0 + t * (line.y1 - line.y0) - self.free.bottom) / _CELL).astype(int)
        inside = (r >= 0) & (r < self.cells.shape[0]) & (c >= 0) & (c < self.cells.shape[1])
        return float(self.cells[r[inside], c[inside]].sum()) * line.length / count


@dataclass(frozen=True, eq=False)
class Balloon:
    """A placed balloon; `box` holds circle and quantity, `leader` runs from the anchor to the circle."""

    wish: BalloonWish
    x: float
    y: float
    radius: float
    side: int
    box: Box
    leader: Segment
    cost: float

    def records(self, style: HouseStyle = HOUSE) -> list[Record]:
        """The balloon drawn."""
        size = style.lettering.balloon
        baseline = self.y - CAP_HEIGHT * size / 2
        small = size * 0.9
        records: list[Record] = [
            Line(*self.leader, style.pens.leader),
            Circle(*self.wish.anchor, style.spacing.anchor_dot, fill=BLACK),
            Circle(self.x, self.y, self.radius, style.pens.balloon, WHITE),
            *set_text(self.wish.mark, self.x, baseline, size, "bold", "centre"),
        ]
        if self.wish.quantity:
            x = self.x + self.side * (self.radius + 0.9)
            anchor: Anchor = "left" if self.side > 0 else "right"
            records += set_text(self.wish.quantity, x, self.y - CAP_HEIGHT * small / 2, small, "regular", anchor)
        return records


@dataclass(frozen=True)
class BalloonLayout:
    """Balloons in the order wished, and the wishes for which there was no place."""

    balloons: tuple[Balloon, ...]
    unplaced: tuple[BalloonWish, ...]

    def records(self, style: HouseStyle = HOUSE) -> list[Record]:
        """Everything drawn: all leaders under all circles."""
        drawn = [r for b in self.balloons for r in b.records(style)]
        return [r for r in drawn if isinstance(r, Line)] + [r for r in drawn if not isinstance(r, Line)]


def _balloon(wish: BalloonWish, centre: Point, side: int, radius: float, beside: float) -> Balloon:
    x, y = centre
    circle = Box(x - radius, y - radius, x + radius, y + radius)
    box = Box(circle.left - beside * (side < 0), circle.bottom, circle.right + beside * (side > 0), circle.top)
    ax, ay = wish.anchor
    far = math.hypot(x - ax, y - ay) or 1.0
    reach = max(0.0, far - radius) / far
    leader = Segment(ax, ay, ax + (x - ax) * reach, ay + (y - ay) * reach)
    return Balloon(wish, x, y, radius, side, box, leader, 0.0)


def _centres(free: Box) -> Points:
    """The grid of places a circle may stand on."""
    xs = np.arange(free.left, free.right, _GRID)
    ys = np.arange(free.bottom, free.top, _GRID)
    return np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)


def _places(wish: BalloonWish, occupied: Occupied, taken: Sequence[Box], style: HouseStyle) -> list[Balloon]:
    """Places for one balloon, the nearest few in each direction round its anchor, cheapest first."""
    size = style.lettering.balloon
    radius = max(style.spacing.balloon_radius, text_width(wish.mark, size, "bold") / 2 + 1.2)
    beside = text_width(wish.quantity, size * 0.9) + 1.4 if wish.quantity else 0.0
    centres = _centres(occupied.free)
    kept: dict[int, int] = {}
    found: list[Balloon] = []
    for side in (1, -1):
        ours = centres[(centres[:, 0] >= wish.anchor[0]) == (side > 0)]
        about = _balloon(wish, (0.0, 0.0), side, radius, beside).box.grown(CLEAR)
        ours = ours[occupied.empty_about(ours, about)]
        away = ours - np.array(wish.anchor)
        ways = (_SECTORS * (np.arctan2(away[:, 1], away[:, 0]) / math.tau + 0.5)).astype(int)
        for n in np.argsort(np.hypot(away[:, 0], away[:, 1]), kind="stable"):
            way = int(ways[n])
            if kept.get(way, 0) == _KEEP_A_SECTOR:
                continue
            one = _balloon(wish, (float(ours[n, 0]), float(ours[n, 1])), side, radius, beside)
            if any(one.box.meets(t) or segment_meets_box(one.leader, t) for t in taken):
                continue
            kept[way] = kept.get(way, 0) + 1
            found.append(_costed(one, occupied))
    return sorted(found, key=lambda b: b.cost)


def _costed(b: Balloon, occupied: Occupied) -> Balloon:
    long = b.leader.length
    cost = long + _OVER_VIEW_COST * occupied.length_over(b.leader) + 2.0 * max(0.0, _SHORTEST - long)
    return Balloon(b.wish, b.x, b.y, b.radius, b.side, b.box, b.leader, cost)


def place_balloons(
    wishes: Sequence[BalloonWish], occupied: Occupied, taken: Sequence[Box] = (), style: HouseStyle = HOUSE
) -> BalloonLayout:
    """Set the balloons round the view, near their parts, leaders short, over little else and never crossing.

    What finds no place that keeps to this is handed back as unplaced.
    """
    return kept(
        "balloons",
        lambda: (tuple(wishes), occupied.free, occupied.cells, tuple(taken), style),
        lambda: _placed(wishes, occupied, taken, style),
    )


def _placed(
    wishes: Sequence[BalloonWish], occupied: Occupied, taken: Sequence[Box], style: HouseStyle
) -> BalloonLayout:
    candidates = [_places(w, occupied, taken, style) for w in wishes]
    costs = BalloonCosts([[(b.box, b.leader, b.wish.anchor) for b in some] for some in candidates])
    search = Search([[b.cost for b in some] for some in candidates], costs.column)
    by_height = sorted(range(len(wishes)), key=lambda i: (-wishes[i].anchor[1], wishes[i].anchor[0], i))
    search.run(by_height)
    search.clear()
    placed = tuple(candidates[i][c] for i, c in enumerate(search.chosen) if c is not None)
    missing = tuple(w for w, c in zip(wishes, search.chosen, strict=True) if c is None)
    return BalloonLayout(placed, missing)
