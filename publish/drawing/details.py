"""Details: what comes out too small at the scale of a sheet, drawn again larger in a frame, and measured there.

A thin frame round the place on the view and a letter, the same place beside it under the same letter with a scale of
its own (ISO 128-3 and ASME Y14.3, from memory). A detail is a view like the others, cut down to its frame: the wishes
about what lies inside go over to it, so that nothing is measured twice.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from publish.drawing.box import Box, Point, Segment, around_points, distance_to_segment
from publish.drawing.clipping import clipped
from publish.drawing.placed import PlacedView
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.view import Arc, Line, View
from publish.drawing.wishes import AngleWish, CalloutWish, DimensionWish, Wish

LEAST_READ = 2.5
"""Paper mm between the lines of a size, the height of the lettering, below which it is drawn larger."""
_WELL_READ = (3.0, 9.0)  # paper mm that the smallest size of a detail comes out
_LEAST_SHOWN = (26.0, 18.0)  # paper mm
_LARGEST = (70.0, 46.0)  # paper mm
_AROUND = 6.0  # paper mm shown round what is measured
_LEAST_FRAME = 7.0  # paper mm, on the view it is taken from
_TIMES_LARGER = 1.9
_ON_LINE = 0.02  # mm


@dataclass(frozen=True)
class Detail:
    """A place of the view `of`, within `frame` (view mm), to be drawn again at the first of `scales` that finds room.

    `shown` is the frame as it is drawn on that view; `wishes` are about the detail, `before` the same about the view.
    """

    letter: str
    of: str
    frame: Box
    shown: Box
    scales: tuple[Scale, ...]
    wishes: tuple[Wish, ...]
    before: tuple[Wish, ...]

    @property
    def key(self) -> str:
        """What its view is called."""
        return f"detail {self.letter}"

    @property
    def name(self) -> str:
        """What is written at the frame, and, before the scale, over the detail."""
        return f"DETAIL {self.letter}"

    def pointer(self) -> CalloutWish:
        """Its name at the frame on the view it is taken from."""
        return CalloutWish(self.of, (self.shown.right, self.shown.centre[1]), (self.name,))

    def view(self, views: dict[str, View]) -> View:
        """The place by itself."""
        return clipped(views[self.of], self.frame)


@dataclass(frozen=True)
class _Cluster:
    """Small sizes that lie together."""

    wishes: tuple[DimensionWish, ...]

    @property
    def box(self) -> Box:
        return around_points(p for wish in self.wishes for p in (wish.p0, wish.p1))

    @property
    def least(self) -> float:
        return min(_span(wish) for wish in self.wishes)

    def scales(self, main: float) -> tuple[Scale, ...]:
        """Those at which it can be read, and is no larger than a detail may be; the largest first."""
        box = self.box
        fit = [
            scale
            for scale in STANDARD
            if scale.factor >= _TIMES_LARGER * main
            and self.least * scale.factor >= _WELL_READ[0]
            and box.width * scale.factor + 2 * _AROUND <= _LARGEST[0]
            and box.height * scale.factor + 2 * _AROUND <= _LARGEST[1]
        ]
        return tuple(s for s in fit if self.least * s.factor <= _WELL_READ[1]) or tuple(fit[-1:])


def details(wishes: Sequence[Wish], views: Sequence[PlacedView], letters: Sequence[str]) -> list[Detail]:
    """The details that `wishes` about `views` call for, as many as there are letters."""
    free, made = iter(letters), list[Detail]()
    for view in views:
        near = _brought_together([(w, _gathered(w, view.view)) for w in wishes if w.view == view.key], view)
        while clusters := _clusters([wish for _, wish in near], view):
            letter = next(free, None)
            if letter is None:
                return made
            made.append(_detail(letter, clusters[0], view, near))
            gone = {id(wish) for wish in made[-1].before}
            near = [(before, wish) for before, wish in near if id(before) not in gone]
    return made


def _clusters(wishes: Sequence[Wish], view: PlacedView) -> list[_Cluster]:
    main = view.scale
    small = [wish for wish in wishes if isinstance(wish, DimensionWish) and _small(wish, view)]
    found: list[_Cluster] = []
    for wish in small:
        for n, cluster in enumerate(found):
            joined = _Cluster((*cluster.wishes, wish))
            if joined.scales(main):
                found[n] = joined
                break
        else:
            if (alone := _Cluster((wish,))).scales(main):
                found.append(alone)
    return found


def _small(wish: Wish, view: PlacedView) -> bool:
    """Whether it is a size that cannot be read on the view, at whose ends something is drawn."""
    if not isinstance(wish, DimensionWish) or wish.role == "overall" or _span(wish) * view.scale >= LEAST_READ:
        return False
    return all(_drawn_at(view, p) for p in (wish.p0, wish.p1))


def _detail(letter: str, cluster: _Cluster, view: PlacedView, near: Sequence[tuple[Wish, Wish]]) -> Detail:
    scales = cluster.scales(view.scale)
    k = scales[0].factor
    frame = _at_least(cluster.box.grown(_AROUND / k), _LEAST_SHOWN[0] / k, _LEAST_SHOWN[1] / k)
    shown = _at_least(frame, _LEAST_FRAME / view.scale, _LEAST_FRAME / view.scale)
    moved = [(before, wish) for before, wish in near if all(frame.has(p) for p in _points(wish))]
    key = f"detail {letter}"
    return Detail(
        letter,
        view.key,
        frame,
        shown,
        scales,
        tuple(_in_detail(wish, key, frame) for _, wish in moved),
        tuple(before for before, _ in moved),
    )


def _in_detail(wish: Wish, key: str, frame: Box) -> Wish:
    if isinstance(wish, CalloutWish):
        return replace(wish, view=key, others=tuple(point for point in wish.others if frame.has(point)))
    return replace(wish, view=key)


def _at_least(box: Box, width: float, height: float) -> Box:
    return box.grown(max(0.0, width - box.width) / 2, max(0.0, height - box.height) / 2)


def _drawn_at(view: PlacedView, point: Point) -> bool:
    """Whether a line runs through a point, or an arc about it: what nothing is drawn at cannot be shown larger."""
    if any(isinstance(s.shape, Arc) and math.dist(s.shape.centre, point) < _ON_LINE for s in view.view.strokes):
        return True
    return any(distance_to_segment(view.at(point), s) < _ON_LINE for s in view.segments)


def _gathered(wish: Wish, view: View) -> Wish:
    """The wish measured at one place, where a line of the view runs on from one of its ends to beside the other."""
    if not isinstance(wish, DimensionWish):
        return wish
    (x0, y0), (x1, y1) = wish.p0, wish.p1
    first, second = ((x1, y0), (x0, y1)) if wish.direction == "v" else ((x0, y1), (x1, y0))
    if _on_a_line(view, first, wish.p0):
        return replace(wish, p0=first)
    return replace(wish, p1=second) if _on_a_line(view, second, wish.p1) else wish


def _brought_together(near: Sequence[tuple[Wish, Wish]], view: PlacedView) -> list[tuple[Wish, Wish]]:
    """Small sizes between two lines that run on, measured beside those that can be measured in one place only.

    What is alike at both ends of a part then takes one detail, not two.
    """
    runs = [_run(wish, view) for _, wish in near]
    fixed = [p for (_, w), run in zip(near, runs, strict=True) if run is None and _small(w, view) for p in _points(w)]
    return [
        (before, wish if run is None or not isinstance(wish, DimensionWish) else _slid(wish, run, fixed, view))
        for (before, wish), run in zip(near, runs, strict=True)
    ]


def _slid(wish: DimensionWish, run: tuple[float, float], fixed: Sequence[Point], view: PlacedView) -> DimensionWish:
    """The size measured at the nearest of some places that lies on its run, unless it is at one already."""
    across = 1 if wish.direction == "h" else 0
    here = wish.p0[across]
    on_run = (p[across] for p in fixed if run[0] - _ON_LINE <= p[across] <= run[1] + _ON_LINE)
    there = sorted(on_run, key=lambda at: abs(at - here))
    if there and abs(there[0] - here) * view.scale < _LEAST_FRAME and _small(wish, view):
        return wish
    for at in (*there, here, *run):
        moved = replace(wish, p0=_set(wish.p0, across, at), p1=_set(wish.p1, across, at))
        if _small(moved, view):
            return moved
    return wish


def _set(point: Point, axis: int, to: float) -> Point:
    return (to, point[1]) if axis == 0 else (point[0], to)


def _run(wish: Wish, view: PlacedView) -> tuple[float, float] | None:
    """From where to where, across its direction, both lines of a small size run; None where they do not share any."""
    if not isinstance(wish, DimensionWish) or _span(wish) * view.scale >= LEAST_READ:
        return None
    across = 1 if wish.direction == "h" else 0
    low, high = -math.inf, math.inf
    for point in (wish.p0, wish.p1):
        lines = [
            sorted((s.shape.start[across], s.shape.end[across]))
            for s in view.view.strokes
            if isinstance(s.shape, Line)
            and all(abs(end[1 - across] - point[1 - across]) < _ON_LINE for end in (s.shape.start, s.shape.end))
        ]
        at = point[across]
        lines = [line for line in lines if line[0] - _ON_LINE <= at <= line[1] + _ON_LINE] or lines
        if not lines:
            return None
        low, high = max(low, min(a for a, _ in lines)), min(high, max(b for _, b in lines))
    return (low, high) if high - low > _ON_LINE else None


def _on_a_line(view: View, point: Point, other: Point) -> bool:
    """Whether one straight stroke runs through both points."""
    lines = (Segment(*s.shape.start, *s.shape.end) for s in view.strokes if isinstance(s.shape, Line))
    return any(distance_to_segment(point, s) < _ON_LINE and distance_to_segment(other, s) < _ON_LINE for s in lines)


def _span(wish: DimensionWish) -> float:
    axis = 0 if wish.direction == "h" else 1
    return abs(wish.p1[axis] - wish.p0[axis])


def _points(wish: Wish) -> tuple[Point, ...]:
    if isinstance(wish, DimensionWish):
        return wish.p0, wish.p1
    return (wish.vertex,) if isinstance(wish, AngleWish) else (wish.point,)
