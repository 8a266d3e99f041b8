"""A depth buffer: which triangle is seen at every pixel of a parallel view, in plain array arithmetic."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from publish.drawing.box import Box

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

AT_ONCE = 2_000_000  # pixels worked on together: bounds the memory


@dataclass(frozen=True)
class Grid:
    """Pixels laid over a view: `box` in view mm, row 0 at the top, the pixel's middle counts."""

    box: Box
    pixels_per_mm: float

    @property
    def width(self) -> int:
        """Columns."""
        return max(1, round(self.box.width * self.pixels_per_mm))

    @property
    def height(self) -> int:
        """Rows."""
        return max(1, round(self.box.height * self.pixels_per_mm))

    def finer(self, times: int) -> Grid:
        """The same place in `times` as many pixels each way."""
        whole = Box(
            self.box.left,
            self.box.top - self.height / self.pixels_per_mm,
            self.box.left + self.width / self.pixels_per_mm,
            self.box.top,
        )
        return Grid(whole, self.pixels_per_mm * times)

    def pixels(self, x: Floats, y: Floats) -> tuple[Floats, Floats]:
        """Column and row, in fractions, of places in view mm."""
        return (x - self.box.left) * self.pixels_per_mm - 0.5, (self.box.top - y) * self.pixels_per_mm - 0.5

    def places(self, column: Floats, row: Floats) -> tuple[Floats, Floats]:
        """View mm of pixels: the way back from `pixels`."""
        return self.box.left + (column + 0.5) / self.pixels_per_mm, self.box.top - (row + 0.5) / self.pixels_per_mm


@dataclass(frozen=True)
class _Rows:
    """One entry a row of pixels a triangle covers: its triangle, row, first column and number of columns."""

    triangle: Ints
    row: Ints
    first: Ints
    count: Ints


def nearest(corners: Floats, grid: Grid, band: tuple[int, int] | None = None) -> tuple[npt.NDArray[np.int32], Floats]:
    """What is seen: the nearest triangle's number at every pixel (-1: none) and its depth (-inf: none).

    corners: M x 3 x 3, every corner as view x, view y and depth (larger is nearer).
    band: the first row and the one past the last that are wanted (None: all); they come out as in the whole.
    """
    top, below = band or (0, grid.height)
    seen = np.full((below - top) * grid.width, -1, dtype=np.int32)
    depth = np.full((below - top) * grid.width, -np.inf)
    column, row = grid.pixels(corners[:, :, 0], corners[:, :, 1])
    flat = np.stack([column, row, corners[:, :, 2]], axis=2)
    rows = _rows(flat, grid.width, (top, below))
    slope_column, slope_row = _slopes(flat)
    start = 0
    ends = np.cumsum(rows.count)
    while start < len(rows.row):
        done = ends[start - 1] if start else 0
        end = max(start + 1, int(np.searchsorted(ends, done + AT_ONCE, side="right")))
        count, triangle, row_of = rows.count[start:end], rows.triangle[start:end], rows.row[start:end]
        first = rows.first[start:end]
        anchor = flat[triangle, 0]
        at_first = (
            anchor[:, 2]
            + (first - anchor[:, 0]) * slope_column[triangle]
            + (row_of - anchor[:, 1]) * slope_row[triangle]
        )
        step = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
        place = np.repeat((row_of - top) * grid.width + first, count) + step
        height = np.repeat(at_first, count) + np.repeat(slope_column[triangle], count) * step
        np.maximum.at(depth, place, height)
        front = height == depth[place]
        seen[place[front]] = np.repeat(triangle.astype(np.int32), count)[front]
        start = end
    shape = (below - top, grid.width)
    return seen.reshape(shape), depth.reshape(shape)


def _rows(flat: Floats, width: int, band: tuple[int, int]) -> _Rows:
    """The rows of pixels in a band that each triangle (M x 3 corners of column, row, depth) covers."""
    wide = _pixels_between(flat[:, :, 0], (0, width))
    tall = _pixels_between(flat[:, :, 1], band)
    some = np.flatnonzero((wide > 0) & (tall > 0))  # most triangles of a small round fall between the pixels
    corners, tall = flat[some, :, :2], tall[some]
    # always from the upper end: two triangles must find the same crossing on an edge they share
    order = np.argsort(corners[:, :, 1], axis=1)
    a, b, c = (np.take_along_axis(corners, order[:, k, None, None], axis=1)[:, 0] for k in range(3))
    top, middle, below = (np.clip(np.ceil(p[:, 1]), *band).astype(np.int64) for p in (a, b, c))
    row = np.arange(tall.sum()) + np.repeat(top - (np.cumsum(tall) - tall), tall)
    # the long side, and the two short ones, one under the other
    long = _crossings(a, c, tall, row)
    halves = np.stack([middle - top, below - middle], axis=1).reshape(-1)
    short = _crossings(np.stack([a, b], axis=1).reshape(-1, 2), np.stack([b, c], axis=1).reshape(-1, 2), halves, row)
    first = np.clip(np.ceil(np.minimum(long, short)), 0, width).astype(np.int64)
    count = np.clip(np.ceil(np.maximum(long, short)), 0, width).astype(np.int64) - first
    covered = count > 0
    return _Rows(np.repeat(some, tall)[covered], row[covered], first[covered], count[covered])


def _pixels_between(places: Floats, band: tuple[int, int]) -> Ints:
    """How many middles of pixels of a band lie between the first and the last of three places (M x 3)."""
    one, two, three = places.T
    first, last = np.minimum(np.minimum(one, two), three), np.maximum(np.maximum(one, two), three)
    between: Ints = (np.clip(np.ceil(last), *band) - np.clip(np.ceil(first), *band)).astype(np.int64)
    return between


def _crossings(upper: Floats, lower: Floats, count: Ints, row: Ints) -> Floats:
    """The columns at which sides from `upper` to `lower` (M x 2) cross the rows `row`, each side `count` of them."""
    rise = lower[:, 1] - upper[:, 1]
    slope = (lower[:, 0] - upper[:, 0]) / np.where(rise > 0, rise, 1.0)
    x, y, slope = np.repeat(np.column_stack([upper, slope]), count, axis=0).T
    column: Floats = x + (row - y) * slope
    return column


def _slopes(flat: Floats) -> tuple[Floats, Floats]:
    """How much each triangle's depth changes a column and a row; 0 for one seen on edge."""
    normal = np.cross(flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0])
    seen = np.abs(normal[:, 2]) > 1e-12
    across = np.where(seen, normal[:, 2], 1.0)
    return np.where(seen, -normal[:, 0] / across, 0.0), np.where(seen, -normal[:, 1] / across, 0.0)
