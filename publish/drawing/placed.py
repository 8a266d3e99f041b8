"""A view set down on a sheet: where it lies and at what scale, and its strokes as paper lines."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from publish.drawing.box import Box, Point, Segment
from publish.drawing.records import Curve, Move, Path, Record, arc_path
from publish.drawing.records import Line as InkLine
from publish.drawing.style import HOUSE, Pen, Pens
from publish.drawing.view import Arc, Line, Shape, Stroke, StrokeKind, View

_ARC_STEP = math.radians(12)
_CURVE_STEPS = 8


@dataclass(frozen=True)
class PlacedView:
    """View `view`, called `key` on its sheet, its origin at (`x`, `y`) on paper; `scale` is paper mm a model mm."""

    key: str
    view: View
    x: float
    y: float
    scale: float

    def at(self, point: Point) -> Point:
        """Where a point of the view falls on paper."""
        return self.x + point[0] * self.scale, self.y + point[1] * self.scale

    @cached_property
    def box(self) -> Box:
        """The view's bounds on paper, mm."""
        box = self.view.box
        return Box(*self.at((box.left, box.bottom)), *self.at((box.right, box.top)))

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Every stroke as straight lines on paper, curves in short pieces."""
        return tuple(
            Segment(*self.at(p), *self.at(q))
            for stroke in self.view.strokes
            for p, q in _pairs(_flattened(stroke.shape))
        )

    def records(self, pens: Pens = HOUSE.pens, pictorial: bool = False) -> list[Record]:
        """The view drawn: smooth edges first, then hidden, visible lines last and on top."""
        visible = pens.pictorial if pictorial else pens.visible
        order: tuple[tuple[StrokeKind, Pen], ...] = (
            ("frame", pens.dimension),
            ("break", pens.dimension),
            ("smooth", pens.smooth),
            ("beyond", pens.dimension),
            ("hidden", pens.hidden),
            ("visible", visible),
        )
        return [self._record(s, pen) for kind, pen in order for s in self.view.strokes if s.kind == kind]

    def _record(self, stroke: Stroke, pen: Pen) -> Record:
        shape = stroke.shape
        if isinstance(shape, Line):
            return InkLine(*self.at(shape.start), *self.at(shape.end), pen)
        if isinstance(shape, Arc):
            return arc_path(self.at(shape.centre), shape.radius * self.scale, shape.start, shape.end, pen)
        first, second, third, last = (self.at(p) for p in shape.points)
        return Path((Move(first), Curve(second, third, last)), pen)


def _pairs(points: list[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise(points))


def _flattened(shape: Shape) -> list[Point]:
    if isinstance(shape, Line):
        return [shape.start, shape.end]
    if isinstance(shape, Arc):
        count = max(2, math.ceil((shape.end - shape.start) / _ARC_STEP))
        angles = [shape.start + n * (shape.end - shape.start) / count for n in range(count + 1)]
        (x, y), r = shape.centre, shape.radius
        return [(x + r * math.cos(a), y + r * math.sin(a)) for a in angles]
    return [_on_curve(shape.points, n / _CURVE_STEPS) for n in range(_CURVE_STEPS + 1)]


def _on_curve(points: tuple[Point, Point, Point, Point], t: float) -> Point:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return (
        sum(w * p[0] for w, p in zip(weights, points, strict=True)),
        sum(w * p[1] for w, p in zip(weights, points, strict=True)),
    )
