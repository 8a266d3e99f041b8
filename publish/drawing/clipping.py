"""A view cut down to what lies inside a rounded frame, and that frame as strokes of a view."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from publish.drawing.box import Box, Point
from publish.drawing.view import Arc, Bezier, Line, Shape, Stroke, View

_CORNER = 0.18  # of the shorter side of the frame
_STEPS_ACROSS = 12
_HALVINGS = 30

Spot = Callable[[float], Point]


def clipped(view: View, frame: Box) -> View:
    """The strokes of `view` inside `frame` (view mm), the frame with them; seen as the view is."""
    corner = _corner(frame)
    kept = [
        Stroke(stroke.kind, part)
        for stroke in view.strokes
        for part in inside_parts(stroke.shape, frame, corner)
        if stroke.kind != "frame"
    ]
    return View(view.axes, (*kept, *frame_strokes(frame)), frame)


def framed(view: View, frames: list[Box]) -> View:
    """`view` with the outlines of `frames` (view mm) drawn on it; its box holds them."""
    boxes = [view.box, *frames]
    box = Box(
        min(b.left for b in boxes),
        min(b.bottom for b in boxes),
        max(b.right for b in boxes),
        max(b.top for b in boxes),
    )
    return View(view.axes, (*view.strokes, *(s for frame in frames for s in frame_strokes(frame))), box)


def frame_strokes(frame: Box) -> tuple[Stroke, ...]:
    """A rectangle with rounded corners."""
    r = _corner(frame)
    inner = frame.grown(-r)
    quarter = math.pi / 2
    corners = (
        (inner.right, inner.top),
        (inner.left, inner.top),
        (inner.left, inner.bottom),
        (inner.right, inner.bottom),
    )
    arcs = [Arc(at, r, n * quarter, (n + 1) * quarter) for n, at in enumerate(corners)]
    lines = (
        Line((inner.left, frame.top), (inner.right, frame.top)),
        Line((frame.left, inner.bottom), (frame.left, inner.top)),
        Line((inner.left, frame.bottom), (inner.right, frame.bottom)),
        Line((frame.right, inner.bottom), (frame.right, inner.top)),
    )
    return (*(Stroke("frame", line) for line in lines), *(Stroke("frame", arc) for arc in arcs))


def _corner(frame: Box) -> float:
    return _CORNER * min(frame.width, frame.height)


def inside_parts(shape: Shape, frame: Box, corner: float) -> list[Shape]:
    """The parts of a stroke that lie in a frame with corners rounded to a radius (view mm)."""
    spot, long = _walk(shape)
    steps = max(2, math.ceil(_STEPS_ACROSS * long / min(frame.width, frame.height)))
    return [_part(shape, a, b) for a, b in _runs(spot, frame, corner, steps)]


def _walk(shape: Shape) -> tuple[Spot, float]:
    """Where one is at a share of the way along a shape, and (about) how long it is, mm."""
    if isinstance(shape, Line):
        (x0, y0), (x1, y1) = shape.start, shape.end
        return lambda t: (x0 + t * (x1 - x0), y0 + t * (y1 - y0)), math.dist(shape.start, shape.end)
    if isinstance(shape, Arc):
        (x, y), r, start, turn = shape.centre, shape.radius, shape.start, shape.end - shape.start
        return lambda t: (x + r * math.cos(start + t * turn), y + r * math.sin(start + t * turn)), r * turn
    points = shape.points
    return lambda t: _split(points, t)[0][3], sum(math.dist(p, q) for p, q in pairwise(points))


def _runs(spot: Spot, frame: Box, corner: float, steps: int) -> list[tuple[float, float]]:
    """The stretches, as shares of the way, that lie inside; their ends by halving."""
    inside = [_holds(frame, corner, spot(n / steps)) for n in range(steps + 1)]
    runs: list[tuple[float, float]] = []
    start = 0.0 if inside[0] else None
    for n in range(1, steps + 1):
        if inside[n] and start is None:
            start = _crossing(spot, frame, corner, n / steps, (n - 1) / steps)
        elif not inside[n] and start is not None:
            runs.append((start, _crossing(spot, frame, corner, (n - 1) / steps, n / steps)))
            start = None
    if start is not None:
        runs.append((start, 1.0))
    return runs


def _crossing(spot: Spot, frame: Box, corner: float, within: float, beyond: float) -> float:
    for _ in range(_HALVINGS):
        middle = (within + beyond) / 2
        if _holds(frame, corner, spot(middle)):
            within = middle
        else:
            beyond = middle
    return within


def _holds(frame: Box, corner: float, point: Point) -> bool:
    inner = frame.grown(-corner)
    dx = max(inner.left - point[0], 0.0, point[0] - inner.right)
    dy = max(inner.bottom - point[1], 0.0, point[1] - inner.top)
    return math.hypot(dx, dy) <= corner


def _part(shape: Shape, a: float, b: float) -> Shape:
    if isinstance(shape, Line):
        spot, _ = _walk(shape)
        return Line(spot(a), spot(b))
    if isinstance(shape, Arc):
        turn = shape.end - shape.start
        return Arc(shape.centre, shape.radius, shape.start + a * turn, shape.start + b * turn)
    after = _split(shape.points, a)[1]
    return Bezier(_split(after, (b - a) / (1 - a) if a < 1 else 0.0)[0])


def _split(
    points: tuple[Point, Point, Point, Point], t: float
) -> tuple[tuple[Point, Point, Point, Point], tuple[Point, Point, Point, Point]]:
    """A cubic in two at `t` (de Casteljau)."""
    p, q, r, s = points
    pq, qr, rs = _between(p, q, t), _between(q, r, t), _between(r, s, t)
    left, right = _between(pq, qr, t), _between(qr, rs, t)
    middle = _between(left, right, t)
    return (p, pq, left, middle), (middle, right, rs, s)


def _between(p: Point, q: Point, t: float) -> Point:
    return p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])
