"""Upright rectangles and straight segments on paper; millimetres, origin bottom left, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

Point = tuple[float, float]


class Box(NamedTuple):
    """An upright rectangle from (`left`, `bottom`) to (`right`, `top`), mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Extent along x, mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent along y, mm."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle of the box."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, by: float, by_y: float | None = None) -> Box:
        """The box with `by` mm more on every side (`by_y`: another amount above and below)."""
        up = by if by_y is None else by_y
        return Box(self.left - by, self.bottom - up, self.right + by, self.top + up)

    def moved(self, dx: float, dy: float) -> Box:
        """The box shifted by (`dx`, `dy`) mm."""
        return Box(self.left + dx, self.bottom + dy, self.right + dx, self.top + dy)

    def meets(self, other: Box) -> bool:
        """True when the two share some area (touching edges do not count)."""
        return (
            self.left < other.right and other.left < self.right and self.bottom < other.top and other.bottom < self.top
        )

    def has(self, point: Point) -> bool:
        """True when `point` lies inside, edges included."""
        return self.left <= point[0] <= self.right and self.bottom <= point[1] <= self.top

    def holds(self, other: Box, slack: float = 1e-6) -> bool:
        """True when `other` lies wholly inside, edges included."""
        return (
            other.left >= self.left - slack
            and other.right <= self.right + slack
            and other.bottom >= self.bottom - slack
            and other.top <= self.top + slack
        )


class Segment(NamedTuple):
    """A straight line on paper, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def box(self) -> Box:
        """The segment's upright bounds."""
        return Box(min(self.x0, self.x1), min(self.y0, self.y1), max(self.x0, self.x1), max(self.y0, self.y1))

    @property
    def length(self) -> float:
        """Length, mm."""
        return math.hypot(self.x1 - self.x0, self.y1 - self.y0)


def around(boxes: Iterable[Box]) -> Box:
    """The smallest box round `boxes`; ValueError when there are none."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return Box(min(lefts), min(bottoms), max(rights), max(tops))


def around_points(points: Iterable[Point]) -> Box:
    """The smallest box round `points`; ValueError when there are none."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def segment_meets_box(s: Segment, box: Box) -> bool:
    """True when a part of segment `s` lies inside `box` (Liang and Barsky's clipping, 1984)."""
    t0, t1 = 0.0, 1.0
    dx, dy = s.x1 - s.x0, s.y1 - s.y0
    for step, room in (
        (-dx, s.x0 - box.left),
        (dx, box.right - s.x0),
        (-dy, s.y0 - box.bottom),
        (dy, box.top - s.y0),
    ):
        if step == 0.0:
            if room <= 0.0:
                return False
            continue
        t = room / step
        if step < 0.0:
            t0 = max(t0, t)
        else:
            t1 = min(t1, t)
        if t0 >= t1:
            return False
    return True


def _turn(ax: float, ay: float, bx: float, by: float, cx: float, cy: float) -> float:
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)


def segments_cross(p: Segment, q: Segment, slack: float = 1e-9) -> bool:
    """True when the two cross or touch; collinear overlap counts too."""
    px0, py0, px1, py1 = p
    qx0, qy0, qx1, qy1 = q
    if (max(px0, px1) < min(qx0, qx1) - slack or max(qx0, qx1) < min(px0, px1) - slack) or (
        max(py0, py1) < min(qy0, qy1) - slack or max(qy0, qy1) < min(py0, py1) - slack
    ):
        return False
    a = _turn(*p, q.x0, q.y0)
    b = _turn(*p, q.x1, q.y1)
    c = _turn(*q, p.x0, p.y0)
    d = _turn(*q, p.x1, p.y1)
    return not ((a > slack and b > slack) or (a < -slack and b < -slack)) and not (
        (c > slack and d > slack) or (c < -slack and d < -slack)
    )


def distance_to_segment(point: Point, s: Segment) -> float:
    """Shortest distance from `point` to segment `s`, mm."""
    dx, dy = s.x1 - s.x0, s.y1 - s.y0
    long2 = dx * dx + dy * dy
    t = 0.0 if long2 == 0.0 else max(0.0, min(1.0, ((point[0] - s.x0) * dx + (point[1] - s.y0) * dy) / long2))
    return math.hypot(point[0] - s.x0 - t * dx, point[1] - s.y0 - t * dy)
