"""The tree test of a drawing office, on what was set down on the sheets of a part.

The lines of a view that dimensions run between, along one axis, and those dimensions form a tree: no line is left
without a size, none is given by two (Dori 1992, from memory; common drawing practice asks the same: each size once,
what follows from others in brackets). Nothing of the product's own sorting of sizes is used: only what was drawn, what
each number says that it measures, and the strokes of the views.

A line that is drawn needs no dimension of its own where
- it lies within the room for a fit of one that has (a mortise is cut that much larger than it is said to be);
- a callout tells it: by the length it prints, from a place that it points at and that has its dimension (a depth, a
  radius), or by half of that, to both sides (a width about its middle);
- a slope or a curve of another view ends or is met there: that follows from its angle or its radius, which
  `test_told.py` holds;
- it is a side of a saw cut whose middle has its dimension: a cut is as wide as the saw;
- a callout says that so many equal fingers share the whole size there, or that so many slots of the width it prints
  are evenly spaced in it;
- it is marked from the part that goes with it, and the callout says so.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import pytest
from scipy.cluster.hierarchy import DisjointSet

from model.piece import Item, Part
from plans.sides import AXIS_NUMBER
from publish.drawing.box import Segment, distance_to_segment
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.view import Arc, Bezier, Line, Shape, View
from publish.drawing.wishes import CalloutWish, DimensionWish
from publish.edition import Edition
from publish.pages import part_sheets
from publish.part_views import DrawnPart

ONE_LINE = 0.02  # mm: lines nearer than this print as one
FIT = 0.25  # mm: the most that is left as room for a fit, and too little to be seen
STRAIGHT = 0.005  # mm that a stroke along the page may go aside
COUNT = re.compile(r"^(\d+)× ")
MARKED = "mark them from"
SAWN = "SAW CUT"
EQUAL = re.compile(r"(\d+) equal fingers")
KEYS = re.compile(r"^(?:\d+× )?(?:(\d+) KEY SLOTS|KEY SLOT)$")
KERF = 2.0  # mm, the thickest cut of a back saw (from memory)

Span = tuple[float, float]


@dataclass(frozen=True)
class Size:
    """A dimension on a sheet: in which view, along which axis of the part, and from where to where, each time."""

    view: str
    axis: int
    text: str
    bracketed: bool
    spans: tuple[Span, ...]

    @property
    def count(self) -> int:
        """How many sizes it says it is."""
        found = COUNT.match(self.text)
        return int(found[1]) if found else 1

    @property
    def apart(self) -> list[list[Span]]:
        """Its spans, those together that the eye does not tell apart."""
        found: list[list[Span]] = []
        for span in self.spans:
            same = [one for one in found if max(abs(a - b) for a, b in zip(one[0], span, strict=True)) < FIT]
            if same:
                same[0].append(span)
            else:
                found.append([span])
        return found


@dataclass(frozen=True)
class Told:
    """A callout on a sheet: its lines, the places it speaks of, and the lengths it prints (mm)."""

    lines: tuple[str, ...]
    places: tuple[tuple[float, float, float], ...]
    lengths: tuple[float, ...]


@dataclass(frozen=True)
class SetDown:
    """All that was set down on the sheets of a part about its views."""

    sizes: tuple[Size, ...]
    told: tuple[Told, ...]


def set_down(edition: Edition, item: Item) -> SetDown:
    """The sizes and callouts that the sheets of a part end up with."""
    drawings: list[PartDrawing] = []
    make = part_sheets._leaf

    def keep(*of: Any) -> Any:
        drawing, added = of[3], of[4]
        drawings.append(added[-1].drawing if added else drawing)
        return make(*of)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(part_sheets, "_leaf", keep)
        part_sheets._sheets(edition, item)
    return set_down_in(edition, item, drawings)


def set_down_in(edition: Edition, item: Item, drawings: Sequence[PartDrawing]) -> SetDown:
    """The same, of drawings that are there already."""
    taken_from = {seat.detail.key: seat.detail.of for drawing in drawings for seat in drawing.details}
    placed = [p.wish for drawing in drawings for p in drawing.layout.placements]
    part = edition.piece.parts[item.shown]
    return SetDown(
        tuple(_size(wish, taken_from) for wish in placed if isinstance(wish, DimensionWish)),
        tuple(_told(edition, part, wish) for wish in placed if isinstance(wish, CalloutWish) and wish.tells),
    )


def _size(wish: DimensionWish, taken_from: dict[str, str]) -> Size:
    axes = {AXIS_NUMBER[m.along] for m in wish.measures}  # type: ignore[index]
    assert len(axes) == 1, wish
    (axis,) = axes
    spans = dict.fromkeys(_in_order(m.start[axis], m.end[axis]) for m in wish.measures)
    return Size(taken_from.get(wish.view, wish.view), axis, wish.text, wish.role == "reference", tuple(spans))


def _told(edition: Edition, part: Part, wish: CalloutWish) -> Told:
    words = " ".join(wish.lines)
    lengths = {
        float(value)
        for one in wish.tells
        for callout in part.features[one.feature].callouts
        for value in callout.values.values()
        if isinstance(value, int | float)
        and value
        and any(_printed(number, words) for number in (edition.number(value), edition.drill(value)))
    }
    return Told(wish.lines, tuple(place for one in wish.tells for place in one.places), tuple(sorted(lengths)))


def _printed(number: str, words: str) -> bool:
    """Whether a number stands among words by itself, and is no part of a longer one."""
    return re.search(rf"(?<![\d.⁄]){re.escape(number)}(?![\d.⁄])", words) is not None


def _in_order(a: float, b: float) -> Span:
    low, high = sorted((a, b))
    return low, high


def views_of(drawn: DrawnPart) -> dict[str, View]:
    """The views of a part by their keys."""
    found = {"face": drawn.views.face, "edge": drawn.views.edge, "end": drawn.views.end}
    return {key: view for key, view in found.items() if view is not None}


class Lines:
    """The lines of one axis that dimensions run between, those of them as one that print as one."""

    def __init__(self, sizes: Iterable[Size]) -> None:
        found = sorted({at for size in sizes for span in size.spans for at in span})
        self.first = {at: at for at in found[:1]}
        for before, at in pairwise(found):
            self.first[at] = self.first[before] if at - before < ONE_LINE else at
        self.joined = DisjointSet(set(self.first.values()))

    def join(self, span: Span) -> bool:
        """Whether two lines were not joined before."""
        return bool(self.joined.merge(self.first[span[0]], self.first[span[1]]))

    def joined_to(self, at: float) -> list[float]:
        """Every line that is joined to one."""
        root = self.joined[self.first[at]]
        return [line for line, first in self.first.items() if self.joined[first] == root]


def said_twice(sheets: SetDown) -> list[str]:
    """Sizes without brackets that close a ring in a view, and counts that are not those of what is measured."""
    found = [
        f"{size.view}: {size.text} states {len(size.apart)}" for size in sheets.sizes if len(size.apart) != size.count
    ]
    for view, axis in {(size.view, size.axis) for size in sheets.sizes}:
        here = [s for s in sheets.sizes if (s.view, s.axis) == (view, axis)]
        lines = Lines(here)
        for group in (group for size in here for group in size.apart):
            for span in group[1:]:  # one line to the eye
                lines.join((group[0][0], span[0]))
                lines.join((group[0][1], span[1]))
        for size in (size for size in here if not size.bracketed):
            found += [
                f"{view}: {size.text} from {g[0]} follows from others" for g in size.apart if not lines.join(g[0])
            ]
    return found


def left_out(sheets: SetDown, views: dict[str, View]) -> list[str]:
    """Lines drawn in a rectilinear view that nothing on the sheets gives a place."""
    found: list[str] = []
    bent = {axis: list(_bends(views.values(), axis)) for axis in range(3)}
    for axis in range(3):
        tree = _from_the_ends([size for size in sheets.sizes if size.axis == axis])
        for key, view in views.items():
            for line in _lines_of(view, axis) if rectilinear(view) else ():
                if not (
                    _near(line.at, tree)
                    or _near(line.at, bent[axis], ONE_LINE)
                    or _by_callout(line.at, axis, tree, sheets.told)
                    or _marked(line, sheets)
                ):
                    found.append(f"{key}: the line at {line.at:.2f} along axis {axis} has no size; {sorted(tree)}")
    return found


def rectilinear(view: View) -> bool:
    """Whether every visible stroke runs along the page or up it; arcs of circles may be among them."""
    visible = [stroke.shape for stroke in view.strokes if stroke.kind == "visible"]
    return all(_ways(shape) or isinstance(shape, Arc) for shape in visible)


def _from_the_ends(sizes: Sequence[Size]) -> list[float]:
    """The lines that can be walked to from the ends of the largest size of an axis, by sizes without brackets."""
    if not sizes:
        return []
    lines = Lines(sizes)
    for size in sizes:
        for span in size.spans if not size.bracketed else ():
            lines.join(span)
    return lines.joined_to(max((span for size in sizes for span in size.spans), key=lambda span: span[1] - span[0])[0])


def _ways(shape: Shape) -> list[int]:
    """The page axes that a stroke keeps its place on: of a straight one along the page, one."""
    if not isinstance(shape, Line):
        return []
    return [n for n in (0, 1) if abs(shape.start[n] - shape.end[n]) < STRAIGHT]


def _page_axis(view: View, axis: int) -> tuple[int, int] | None:
    """Which axis of the page an axis of the part lies along, and which way; nothing where one looks along it."""
    for n, vector in enumerate((view.axes.right, view.axes.up)):
        if abs(vector[axis]) > 0.5:
            return n, 1 if vector[axis] > 0 else -1
    return None


@dataclass(frozen=True)
class Stroke:
    """A straight stroke: where it lies along the axis asked for, and from where to where it runs along another."""

    at: float
    other: int
    run: Span


def _lines_of(view: View, axis: int) -> Iterator[Stroke]:
    """The visible straight strokes square to an axis of the part."""
    for other in {0, 1, 2} - {axis}:
        page, beside = _page_axis(view, axis), _page_axis(view, other)
        if page is None or beside is None:
            continue
        (n, way), (m, far) = page, beside
        for stroke in view.strokes:
            shape = stroke.shape
            if stroke.kind == "visible" and isinstance(shape, Line) and n in _ways(shape):
                yield Stroke(way * shape.start[n], other, _in_order(far * shape.start[m], far * shape.end[m]))


def _bends(views: Iterable[View], axis: int) -> Iterator[float]:
    """Where along an axis slopes and curves end, seen or hidden, and where straight strokes end on a slope."""
    for view in views:
        page = _page_axis(view, axis)
        if page is None:
            continue
        n, way = page
        shapes = [stroke.shape for stroke in view.strokes if stroke.kind in ("visible", "hidden")]
        bent = [shape for shape in shapes if not _ways(shape)]
        slopes = [Segment(*shape.start, *shape.end) for shape in bent if isinstance(shape, Line)]
        yield from (way * point[n] for shape in bent for point in _ends(shape))
        for point in (point for shape in shapes if _ways(shape) for point in _ends(shape)):
            if any(distance_to_segment(point, slope) < ONE_LINE for slope in slopes):
                yield way * point[n]


def _ends(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Line):
        return [shape.start, shape.end]
    if isinstance(shape, Bezier):
        return [shape.points[0], shape.points[-1]]
    return [_on(shape, turn) for turn in (shape.start, shape.end)]


def _on(arc: Arc, turn: float) -> tuple[float, float]:
    return arc.centre[0] + arc.radius * math.cos(turn), arc.centre[1] + arc.radius * math.sin(turn)


def _near(at: float, lines: Iterable[float], within: float = FIT) -> bool:
    return any(abs(line - at) < within for line in lines)


def _by_callout(at: float, axis: int, tree: Sequence[float], told: Iterable[Told]) -> bool:
    for one in told:
        for equal in (found for line in one.lines if (found := EQUAL.search(line)) and tree):
            slices = (at - min(tree)) / (max(tree) - min(tree)) * int(equal[1])
            if abs(slices - round(slices)) * (max(tree) - min(tree)) / int(equal[1]) < FIT:
                return True
        if tree and (keys := KEYS.match(one.lines[0])) and _near(at, _evenly(int(keys[1] or 1), one.lengths, tree)):
            return True
        for origin in (place[axis] for place in one.places if _near(place[axis], tree)):
            away = abs(at - origin)
            if any(SAWN in line for line in one.lines) and away < KERF / 2:
                return True
            if any(abs(away - length) < FIT or abs(away - length / 2) < FIT for length in one.lengths):
                return True
    return False


def _evenly(number: int, widths: Iterable[float], tree: Sequence[float]) -> list[float]:
    """The sides of so many slots of a width with as much wood between them as at either end."""
    whole, sides = max(tree) - min(tree), []
    for wide in widths:
        between = (whole - number * wide) / (number + 1)
        sides += [min(tree) + between + n * (between + wide) + side for n in range(number) for side in (0.0, wide)]
    return sides


def _marked(line: Stroke, sheets: SetDown) -> bool:
    """Whether it belongs to what is marked from another part: as long as the shortest size about the place told of."""
    spans = [span for size in sheets.sizes if size.axis == line.other for span in size.spans]
    for one in (one for one in sheets.told if any(MARKED in words for words in one.lines)):
        for at in (place[line.other] for place in one.places):
            about = [span for span in spans if span[0] < at < span[1]]
            if about:
                shortest = min(about, key=lambda span: span[1] - span[0])
                if max(abs(a - b) for a, b in zip(shortest, line.run, strict=True)) < FIT:
                    return True
    return False
