"""What a sheet is made of: flat, frozen records in paper millimetres. Writers translate them and decide nothing.

Every record has `.box`, the upright rectangle its ink lies in (line widths left out).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from publish.drawing.box import Box, Point, Segment, around, around_points
from publish.drawing.style import BLACK, Colour, Paper, Pen
from publish.drawing.typeface import FaceStyle, clean, plain_width, reach

Anchor = Literal["left", "centre", "right"]
_SHARE: dict[Anchor, float] = {"left": 0.0, "centre": 0.5, "right": 1.0}


@dataclass(frozen=True)
class Line:
    """A straight line."""

    x0: float
    y0: float
    x1: float
    y1: float
    pen: Pen

    @property
    def box(self) -> Box:
        """Bounds, mm."""
        return Segment(self.x0, self.y0, self.x1, self.y1).box


@dataclass(frozen=True)
class Move:
    """Lift the pen and set it down at `to`."""

    to: Point


@dataclass(frozen=True)
class Straight:
    """Draw straight to `to`."""

    to: Point


@dataclass(frozen=True)
class Curve:
    """Draw a cubic Bezier curve over `first` and `second` to `to`."""

    first: Point
    second: Point
    to: Point


Step = Move | Straight | Curve


@dataclass(frozen=True)
class Path:
    """An outline of straight and curved steps; `pen` None: fill alone; `fill` None: line alone."""

    steps: tuple[Step, ...]
    pen: Pen | None = None
    fill: Colour | None = None
    closed: bool = False

    @property
    def box(self) -> Box:
        """Bounds of all points, control points included, mm."""
        return around_points(
            p for s in self.steps for p in ((s.first, s.second, s.to) if isinstance(s, Curve) else (s.to,))
        )


@dataclass(frozen=True)
class Circle:
    """A full circle."""

    x: float
    y: float
    radius: float
    pen: Pen | None = None
    fill: Colour | None = None

    @property
    def box(self) -> Box:
        """Bounds, mm."""
        return Box(self.x - self.radius, self.y - self.radius, self.x + self.radius, self.y + self.radius)


@dataclass(frozen=True)
class Label:
    """One run of text on one baseline. `size` is the em, mm; `rotation` 0, or 90 (reads upwards).

    `reads`: what a search or a screen reader gets instead of the glyphs ("" for nothing); None for the glyphs
    themselves. The string is cleaned for the face when the record is made.
    """

    x: float
    y: float
    string: str
    size: float
    style: FaceStyle = "regular"
    anchor: Anchor = "left"
    colour: Colour = BLACK
    rotation: Literal[0, 90] = 0
    reads: str | None = None

    def __post_init__(self) -> None:
        """Clean the string, whoever made the record."""
        object.__setattr__(self, "string", clean(self.string, self.style))

    @property
    def width(self) -> float:
        """Advance width along the baseline, mm."""
        return plain_width(self.string, self.size, self.style)

    @property
    def start(self) -> Point:
        """Where the baseline begins, the anchor taken into account."""
        back = _SHARE[self.anchor] * self.width
        return (self.x - back, self.y) if self.rotation == 0 else (self.x, self.y - back)

    @property
    def box(self) -> Box:
        """Tight bounds, mm."""
        x, y = self.start
        low, high = (self.size * r for r in reach(self.string))
        if self.rotation == 0:
            return Box(x, y + low, x + self.width, y + high)
        return Box(x - high, y, x - low, y + self.width)


@dataclass(frozen=True)
class Image:
    """A picture: `pixels` is rows of 8-bit RGB from the top, `columns` x `rows`; set in the rectangle given."""

    x: float
    y: float
    width: float
    height: float
    columns: int
    rows: int
    pixels: bytes

    @property
    def box(self) -> Box:
        """Bounds, mm."""
        return Box(self.x, self.y, self.x + self.width, self.y + self.height)


@dataclass(frozen=True)
class Link:
    """A rectangle that leads to the sheet called `to`."""

    box: Box
    to: str


Record = Line | Path | Circle | Label | Image | Link


@dataclass(frozen=True)
class Sheet:
    """One page. `key` names it for links; `level` is its depth among the bookmarks (None: no bookmark)."""

    key: str
    title: str
    paper: Paper
    items: tuple[Record, ...]
    level: int | None = 0
    page_label: str = ""


def image_from_array(rgb: np.ndarray[Any, np.dtype[np.uint8]], x: float, y: float, width: float) -> Image:
    """A picture from an array (rows, columns, 3) of bytes, `width` mm wide, its pixels square."""
    if rgb.ndim != 3 or rgb.shape[2] != 3 or rgb.dtype != np.uint8:
        raise ValueError(f"an image is rows x columns x 3 bytes, not {rgb.shape} {rgb.dtype}")
    rows, columns = rgb.shape[:2]
    return Image(x, y, width, width * rows / columns, columns, rows, np.ascontiguousarray(rgb).tobytes())


def box_of(records: Iterable[Record]) -> Box:
    """The box round all `records`; ValueError when there are none."""
    return around(r.box for r in records)


def polyline(points: Iterable[Point], pen: Pen | None = None, fill: Colour | None = None, closed: bool = False) -> Path:
    """A path of straight steps through `points`."""
    first, *rest = points
    return Path((Move(first), *(Straight(p) for p in rest)), pen, fill, closed)


def rectangle(box: Box, pen: Pen | None = None, fill: Colour | None = None) -> Path:
    """The outline (or area) of `box`."""
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return polyline(corners, pen, fill, closed=True)


def arrow_head(tip: Point, back: Point, length: float, width: float, colour: Colour = BLACK) -> Path:
    """A filled arrow head with its point at `tip`, its tail towards `back`."""
    dx, dy = back[0] - tip[0], back[1] - tip[1]
    far = math.hypot(dx, dy) or 1.0
    ux, uy = dx / far, dy / far
    bx, by = tip[0] + ux * length, tip[1] + uy * length
    side = width / 2
    return polyline((tip, (bx - uy * side, by + ux * side), (bx + uy * side, by - ux * side)), fill=colour, closed=True)


def arc_path(centre: Point, radius: float, start: float, end: float, pen: Pen) -> Path:
    """A circular arc from angle `start` to `end`, radians, counter-clockwise; a cubic for each 45 degrees or less."""
    count = max(1, math.ceil(abs(end - start) / (math.pi / 4) - 1e-9))
    step = (end - start) / count
    handle = 4 / 3 * math.tan(step / 4) * radius
    x, y = centre
    steps: list[Step] = [Move((x + radius * math.cos(start), y + radius * math.sin(start)))]
    for n in range(count):
        a, b = start + n * step, start + (n + 1) * step
        p = x + radius * math.cos(a), y + radius * math.sin(a)
        q = x + radius * math.cos(b), y + radius * math.sin(b)
        first = p[0] - handle * math.sin(a), p[1] + handle * math.cos(a)
        second = q[0] + handle * math.sin(b), q[1] - handle * math.cos(b)
        steps.append(Curve(first, second, q))
    return Path(tuple(steps), pen)
