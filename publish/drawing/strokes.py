"""Tidying the strokes of a view: nothing drawn twice, and what is seen always over what is hidden.

A hidden-line run gives many edges that fall on each other (the front and the back edge of a box, the
edges of two parts that are flush). Straight strokes on one line and arcs on one circle are joined;
of what is left, visible beats smooth, and both beat hidden.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from publish.drawing.box import Box, Point
from publish.drawing.view import Arc, Bezier, Line, Shape, Stroke, StrokeKind

ON_LINE = 5e-3  # mm; ends no further off than this lie on the same line or circle
SHORTEST = 0.01  # mm; strokes shorter than this are crumbs of the kernel's arithmetic
DIGITS = 6
ORDER: tuple[StrokeKind, ...] = ("visible", "smooth", "hidden")  # each gives way to those before it
TURN = 2 * math.pi

Interval = tuple[float, float]
Spans = dict[StrokeKind, list[Interval]]


@dataclass
class _Row:
    """Strokes on one straight line through `origin` along the unit vector `along`."""

    origin: Point
    along: Point
    spans: Spans = field(default_factory=lambda: {kind: [] for kind in ORDER})


@dataclass
class _Ring:
    """Strokes on one circle."""

    centre: Point
    radius: float
    spans: Spans = field(default_factory=lambda: {kind: [] for kind in ORDER})


def tidy(strokes: Iterable[Stroke]) -> tuple[Stroke, ...]:
    """The strokes without doubles, in an order that depends on nothing but where they lie."""
    strokes = list(strokes)
    lines = [(s.kind, s.shape) for s in strokes if isinstance(s.shape, Line)]
    arcs = [(s.kind, s.shape) for s in strokes if isinstance(s.shape, Arc)]
    curves = [(s.kind, s.shape) for s in strokes if isinstance(s.shape, Bezier)]
    kept = [*_tidy_lines(lines), *_tidy_arcs(arcs), *_tidy_curves(curves)]
    return tuple(sorted((_rounded(s) for s in kept), key=_place))


def bounds(strokes: Sequence[Stroke]) -> Box:
    """The box round all strokes (control points of curves included); all zero where there are none."""
    corners = [corner for s in strokes for corner in _extremes(s.shape)]
    if not corners:
        return Box(0.0, 0.0, 0.0, 0.0)
    xs, ys = zip(*corners, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def _tidy_lines(lines: Sequence[tuple[StrokeKind, Line]]) -> list[Stroke]:
    """Straight strokes on one line joined, and the parts that give way taken out."""
    rows: list[_Row] = []
    lies: list[tuple[float, float, float]] = []  # each row's line as a x + b y = c
    # the longest first: its direction is the surest
    for kind, line in sorted(lines, key=lambda kl: (-round(_length(kl[1]), 4), kl[1].start, kl[1].end)):
        if _length(line) < SHORTEST:
            continue
        near = _on_row(lies, line)
        if near is not None:
            row = rows[near]
        else:
            row = _row_along(line)
            rows.append(row)
            (x, y), (dx, dy) = row.origin, row.along
            lies.append((-dy, dx, dx * y - dy * x))
        t = sorted(_along(row, p) for p in (line.start, line.end))
        row.spans[kind].append((t[0], t[1]))
    return [
        Stroke(kind, Line(_point(row, t0), _point(row, t1)))
        for row in rows
        for kind, spans in _settled(row.spans).items()
        for t0, t1 in spans
        if t1 - t0 >= SHORTEST
    ]


def _on_row(lies: Sequence[tuple[float, float, float]], line: Line) -> int | None:
    """The first row (a, b, c) on whose line both ends lie. A view has some tens: a plain loop beats arrays."""
    (x0, y0), (x1, y1) = line.start, line.end
    for number, (a, b, c) in enumerate(lies):
        if abs(a * x0 + b * y0 - c) <= ON_LINE and abs(a * x1 + b * y1 - c) <= ON_LINE:
            return number
    return None


def _tidy_arcs(arcs: Sequence[tuple[StrokeKind, Arc]]) -> list[Stroke]:
    """Arcs of one circle joined, and the parts that give way taken out."""
    rings: list[_Ring] = []
    for kind, arc in arcs:
        ring = next((r for r in rings if _same_ring(r, arc)), None)
        if ring is None:
            ring = _Ring(arc.centre, arc.radius)
            rings.append(ring)
        start = arc.start % TURN
        end = start + (arc.end - arc.start)
        ring.spans[kind] += [(start, end)] if end <= TURN else [(start, TURN), (0.0, end - TURN)]
    return [
        Stroke(kind, Arc(ring.centre, ring.radius, a0, a1))
        for ring in rings
        for kind, spans in _settled(ring.spans, 1 / max(ring.radius, 1e-9)).items()
        for a0, a1 in _rejoined(spans)
        if (a1 - a0) * ring.radius >= SHORTEST
    ]


def _tidy_curves(curves: Sequence[tuple[StrokeKind, Bezier]]) -> list[Stroke]:
    """Curves without those that fall on another that comes before them."""
    kept: list[Stroke] = []
    taken = np.zeros((0, 8))
    for kind, curve in sorted(curves, key=lambda kc: ORDER.index(kc[0])):
        there = np.array(curve.points).ravel()
        back = np.array(curve.points[::-1]).ravel()
        apart = np.minimum(np.abs(taken - there).max(axis=1), np.abs(taken - back).max(axis=1))
        if len(apart) and apart.min() <= ON_LINE:
            continue
        taken = np.vstack([taken, there])
        kept.append(Stroke(kind, curve))
    return kept


def _settled(spans: Spans, unit: float = 1.0) -> Spans:
    """Each kind's spans joined, less those of the kinds before it; `unit` is 1 mm in the spans' measure."""
    settled: Spans = {}
    above: list[Interval] = []
    for kind in ORDER:
        settled[kind] = _less(_joined(spans[kind], ON_LINE * unit), above)
        above = _joined([*above, *spans[kind]], ON_LINE * unit)
    return settled


def _joined(spans: Iterable[Interval], near: float) -> list[Interval]:
    """Spans in order, those that overlap or come within `near` made one."""
    joined: list[Interval] = []
    for start, end in sorted(spans):
        if joined and start <= joined[-1][1] + near:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def _less(spans: Iterable[Interval], taken: Sequence[Interval]) -> list[Interval]:
    """Spans with everything in `taken` (in order, apart) cut out of them."""
    left: list[Interval] = []
    for start, end in spans:
        for t0, t1 in taken:
            if t1 <= start or t0 >= end:
                continue
            if t0 > start:
                left.append((start, t0))
            start = t1
        if start < end:
            left.append((start, end))
    return left


def _rejoined(spans: list[Interval]) -> list[Interval]:
    """Arcs that were cut at angle 0 made whole again; a full circle is (0, 2 pi)."""
    if len(spans) > 1 and spans[0][0] < 1e-9 and spans[-1][1] > TURN - 1e-9:
        return [*spans[1:-1], (spans[-1][0], spans[0][1] + TURN)]
    return spans


def _row_along(line: Line) -> _Row:
    """The line a stroke lies on, always pointing right, or up."""
    (x0, y0), (x1, y1) = line.start, line.end
    size = _length(line)
    dx, dy = (x1 - x0) / size, (y1 - y0) / size
    if dx < -1e-7 or (abs(dx) <= 1e-7 and dy < 0):
        dx, dy = -dx, -dy
    return _Row(line.start, (dx, dy))


def _along(row: _Row, point: Point) -> float:
    return (point[0] - row.origin[0]) * row.along[0] + (point[1] - row.origin[1]) * row.along[1]


def _point(row: _Row, t: float) -> Point:
    return row.origin[0] + t * row.along[0], row.origin[1] + t * row.along[1]


def _same_ring(ring: _Ring, arc: Arc) -> bool:
    return math.dist(ring.centre, arc.centre) <= ON_LINE and abs(ring.radius - arc.radius) <= ON_LINE


def _length(line: Line) -> float:
    return math.dist(line.start, line.end)


def _extremes(shape: Shape) -> list[Point]:
    """Points whose box holds the shape."""
    if isinstance(shape, Line):
        return [shape.start, shape.end]
    if isinstance(shape, Bezier):
        return list(shape.points)
    quarters = range(math.ceil(shape.start / (math.pi / 2)), math.floor(shape.end / (math.pi / 2)) + 1)
    angles = [shape.start, shape.end, *(q * math.pi / 2 for q in quarters)]
    (x, y), r = shape.centre, shape.radius
    return [(x + r * math.cos(a), y + r * math.sin(a)) for a in angles]


def _rounded(stroke: Stroke) -> Stroke:
    """The stroke with its numbers rounded, so that no last digit differs from run to run."""
    shape = stroke.shape
    if isinstance(shape, Line):
        return Stroke(stroke.kind, Line(_round(shape.start), _round(shape.end)))
    if isinstance(shape, Bezier):
        a, b, c, d = (_round(p) for p in shape.points)
        return Stroke(stroke.kind, Bezier((a, b, c, d)))
    start, end = round(shape.start, 9), round(shape.end, 9)
    return Stroke(stroke.kind, Arc(_round(shape.centre), round(shape.radius, DIGITS), start, end))


def _round(point: Point) -> Point:
    # adding zero turns -0.0 into 0.0
    return round(point[0], DIGITS) + 0.0, round(point[1], DIGITS) + 0.0


def _place(stroke: Stroke) -> tuple[object, ...]:
    """Sorting key: kind, then shape, then where it lies."""
    shape = stroke.shape
    if isinstance(shape, Line):
        return ORDER.index(stroke.kind), 0, shape.start, shape.end
    if isinstance(shape, Arc):
        return ORDER.index(stroke.kind), 1, shape.centre, (shape.radius, shape.start)
    return ORDER.index(stroke.kind), 2, shape.points[0], shape.points[1:]
