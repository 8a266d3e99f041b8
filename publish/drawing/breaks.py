"""Long parts broken: stretches along which nothing changes are left out, so that the rest can be drawn larger.

Two thin lines with a zigzag where wood is left out; what is measured across it is said true (ISO 128-3 and ASME Y14.2,
from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from publish.drawing.arrange import PartViews
from publish.drawing.box import Box, Point
from publish.drawing.view import Arc, Bezier, Line, Shape, Stroke, View
from publish.drawing.wishes import AngleWish, CalloutWish, DimensionWish, Wish

ALONG = ("face", "edge")
"""The views that lie along the part, one over the other: both are broken at the same places."""
_LEFT_ON = 6.5  # paper mm of a plain stretch that stay at either end
_APART = 2.4  # paper mm between the lines of a break
_LEAST_OUT = 10.0  # paper mm, less is not worth a break
FEW, MOST = 2, 4
"""Breaks a part may have; more than a few cut it to pieces."""
_MOST_OUT = 0.7  # of the length
_OVER = 1.2  # paper mm the lines of a break stand out over the outline
_ZIGZAG = (1.3, 2.2)  # paper mm to either side, and half its height
_ALIKE = 0.02  # share by which stretches may differ and be broken together
_FLAT = 1e-6  # mm


@dataclass(frozen=True)
class Break:
    """What lies between `start` and `end` (view mm, along the page) left out, `apart` put in its place."""

    start: float
    end: float
    apart: float

    @property
    def gain(self) -> float:
        """By how much the view gets shorter."""
        return self.end - self.start - self.apart


@dataclass(frozen=True)
class Broken:
    """A part's views and what is said about them, with some breaks."""

    views: PartViews
    wishes: tuple[Wish, ...]


def broken(views: PartViews, wishes: Sequence[Wish], factor: float, room: float, most: int) -> Broken | None:
    """The part broken, `most` times at most, so that at `factor` (paper mm a mm) its length takes `room` paper mm.

    None where it takes no more anyway, or where too little of it is plain.
    """
    long = max(view.box.width for view in _along(views))
    breaks = _breaks(_plain(views, wishes), factor, long, long - room / factor, most)
    if not breaks:
        return None
    edge = None if views.edge is None else _broken_view(views.edge, breaks, factor)
    shown = replace(views, face=_broken_view(views.face, breaks, factor), edge=edge)
    return Broken(shown, tuple(_moved_wish(wish, breaks) if wish.view in ALONG else wish for wish in wishes))


def _along(views: PartViews) -> list[View]:
    return [views.face] if views.edge is None else [views.face, views.edge]


def _plain(views: PartViews, wishes: Sequence[Wish]) -> list[tuple[float, float]]:
    """Stretches along the page in which every line runs along it, and nothing is measured from."""
    taken = [_reach(stroke.shape) for view in _along(views) for stroke in view.strokes if not _level(stroke.shape)]
    ends = [x for view in _along(views) for s in view.strokes if _level(s.shape) for x in _reach(s.shape)]
    for wish in (wish for wish in wishes if wish.view in ALONG):
        if isinstance(wish, DimensionWish) and wish.direction == "h":
            ends += [wish.p0[0], wish.p1[0]]
        elif isinstance(wish, AngleWish):
            ends.append(wish.vertex[0])
    found: list[tuple[float, float]] = []
    reached = None
    for low, high in sorted([*taken, *((x, x) for x in ends)]):
        if reached is not None and low > reached:
            found.append((reached, low))
        reached = high if reached is None else max(reached, high)
    return found


def _breaks(plain: Sequence[tuple[float, float]], factor: float, long: float, wanted: float, most: int) -> list[Break]:
    """The fewest breaks that leave out `wanted` mm, in the longest stretches, alike ones together."""
    if wanted <= 0 or wanted > _MOST_OUT * long:
        return []
    left_on, apart = _LEFT_ON / factor, _APART / factor
    whole = [Break(a + left_on, b - left_on, apart) for a, b in plain if (b - a - 2 * left_on) * factor > _LEAST_OUT]
    whole.sort(key=lambda one: (-one.gain, one.start))
    for count in range(1, min(most, len(whole)) + 1):
        chosen = [one for one in whole if one.gain >= whole[count - 1].gain * (1 - _ALIKE)]
        over = sum(one.gain for one in chosen) - wanted
        if over >= 0 and len(chosen) <= most:
            spare = over / len(chosen) / 2
            return sorted((Break(one.start + spare, one.end - spare, apart) for one in chosen), key=lambda b: b.start)
    return []


def _moved(x: float, breaks: Sequence[Break]) -> float:
    """Where a place along the page comes to lie; one that is left out, beside the nearer line of its break."""
    shift = 0.0
    for one in breaks:
        if one.start < x < one.end:
            x = one.start - one.apart if x < (one.start + one.end) / 2 else one.end + one.apart
        if x >= one.end:
            shift += one.gain
    return x - shift


def _broken_view(view: View, breaks: Sequence[Break], factor: float) -> View:
    box = Box(_moved(view.box.left, breaks), view.box.bottom, _moved(view.box.right, breaks), view.box.top)
    strokes = [Stroke(s.kind, part) for s in view.strokes for part in _parts(s.shape, breaks)]
    strokes += [
        Stroke("break", line)
        for one in breaks
        for x in (_moved(one.start, breaks), _moved(one.end, breaks))
        for line in _zigzag(x, box, factor)
    ]
    return View(view.axes, tuple(strokes), box)


def _zigzag(x: float, box: Box, factor: float) -> list[Line]:
    """A line across the part, with a zigzag in its middle."""
    middle, over, aside = box.centre[1], _OVER / factor, _ZIGZAG[0] / factor
    half = min(_ZIGZAG[1] / factor, 0.3 * box.height)
    points = [
        *((x, box.bottom - over), (x, middle - half), (x - aside, middle - half / 3)),
        *((x + aside, middle + half / 3), (x, middle + half), (x, box.top + over)),
    ]
    return [Line(a, b) for a, b in pairwise(points)]


def _parts(shape: Shape, breaks: Sequence[Break]) -> list[Shape]:
    """What is left of a shape, each part where it comes to lie."""
    if not (isinstance(shape, Line) and _level(shape)):
        x = _reach(shape)[0]
        return [_shifted(shape, _moved(x, breaks) - x)]
    (low, high), y = _reach(shape), shape.start[1]
    cuts = [one for one in breaks if low < one.start and one.end < high]
    starts, ends = [low, *(one.end for one in cuts)], [*(one.start for one in cuts), high]
    return [Line((_moved(a, breaks), y), (_moved(b, breaks), y)) for a, b in zip(starts, ends, strict=True)]


def _shifted(shape: Shape, dx: float) -> Shape:
    if isinstance(shape, Line):
        return Line((shape.start[0] + dx, shape.start[1]), (shape.end[0] + dx, shape.end[1]))
    if isinstance(shape, Arc):
        return replace(shape, centre=(shape.centre[0] + dx, shape.centre[1]))
    first, second, third, last = ((x + dx, y) for x, y in shape.points)
    return Bezier((first, second, third, last))


def _level(shape: Shape) -> bool:
    return isinstance(shape, Line) and abs(shape.start[1] - shape.end[1]) < _FLAT


def _reach(shape: Shape) -> tuple[float, float]:
    """How far a shape reaches along the page, or further."""
    if isinstance(shape, Arc):
        return shape.centre[0] - shape.radius, shape.centre[0] + shape.radius
    xs = [x for x, _ in ((shape.start, shape.end) if isinstance(shape, Line) else shape.points)]
    return min(xs), max(xs)


def _moved_wish(wish: Wish, breaks: Sequence[Break]) -> Wish:
    def moved(point: Point) -> Point:
        return _moved(point[0], breaks), point[1]

    if isinstance(wish, DimensionWish):
        return replace(wish, p0=moved(wish.p0), p1=moved(wish.p1))
    if isinstance(wish, CalloutWish):
        others = tuple(dict.fromkeys(map(moved, wish.others)))
        return replace(wish, point=moved(wish.point), others=others)
    return replace(wish, vertex=moved(wish.vertex))
