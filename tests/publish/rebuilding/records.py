"""The sheet of a part as its maker has it: printed numbers, what they run between, and words pointing at places.

No coordinate of the model gets through. A line across the part is known by its rank among the lines of its axis, as
one sees on a drawing what lies before what; how far apart lines are is told by printed numbers alone. What leans is
known by the way it leans, its angle by the printed words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

from model.piece import Item
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side, third_axis
from publish.drawing.view import Axes, Line, View
from publish.drawing.wishes import CalloutWish, DimensionWish, Wish
from publish.edition import Edition
from publish.part_views import DrawnPart
from publish.part_wishes import wishes
from publish.words.notes import notes

ONE_LINE = 0.02  # mm: lines nearer than this are drawn as one, and counted as one
SQUARE = 1e-3  # tangent of the lean that counts as none
MARGIN = 1.0  # mm about a feature within which its own lines are drawn
FAR = 1e6  # mm
LEAST_DRAWN = 2.0  # mm: a shorter stroke shows no lean


class Spot(NamedTuple):
    """A place on the drawing along one axis: on the line of a rank, or (halves) between two; and in which half."""

    rank: float
    half: int


@dataclass(frozen=True)
class Span:
    """What a dimension runs between: two lines of an axis; `feature` and `name` say of what it is the size."""

    feature: int
    name: str
    axis: int
    start: int
    end: int


@dataclass(frozen=True)
class Dimension:
    """A printed number and all that it states."""

    text: str
    role: str
    spans: tuple[Span, ...]


@dataclass(frozen=True)
class Target:
    """One thing a callout tells of: on which side of the part it is (axis and sign), and its places."""

    feature: int
    axis: int
    sign: int
    places: tuple[tuple[Spot, Spot, Spot], ...]


@dataclass(frozen=True)
class Callout:
    """The printed lines of a callout and all that it tells of."""

    lines: tuple[str, ...]
    view: str
    targets: tuple[Target, ...]


@dataclass(frozen=True)
class SheetRecords:
    """All a maker has of a part. `runs`, `wide` and `thick` are the axes it lies along, as its views show it.

    `leans`: (axis, sign of the end or side, other axis) -> which way along `axis` its outline goes, as the other axis
    grows; nothing where it is drawn square. `walls`: (feature, axis, other axis) -> which way along the other axis its
    walls go, hidden ones too, as `axis` grows.
    """

    runs: int
    wide: int
    thick: int
    dimensions: tuple[Dimension, ...]
    callouts: tuple[Callout, ...]
    notes: tuple[str, ...]
    leans: dict[tuple[int, int, int], int]
    walls: dict[tuple[int, int, int], int]


def records(edition: Edition, item: Item) -> SheetRecords:
    """What the sheets of a part say; that all of it is set down on them is held by `test_random_parts.py`."""
    part, drawn = edition.piece.parts[item.shown], edition.drawn.parts[item.mark]
    said = wishes(edition, part, drawn)
    runs, thick = part.spec.runs, part.spec.thick
    return SheetRecords(
        AXIS_NUMBER[runs],
        AXIS_NUMBER[third_axis(runs, thick)],
        AXIS_NUMBER[thick],
        *_ranked(said),
        tuple(notes(edition, item, drawn)),
        _leans(drawn),
        _walls(drawn, said),
    )


def _ranked(said: Sequence[Wish]) -> tuple[tuple[Dimension, ...], tuple[Callout, ...]]:
    sizes = [wish for wish in said if isinstance(wish, DimensionWish)]
    measured = [m for wish in sizes for m in wish.measures]
    lines = [
        Ranks(at[axis] for m in measured if AXIS_NUMBER[_axis(m.along)] == axis for at in (m.start, m.end))
        for axis in range(3)
    ]
    dimensions = []
    for wish in sizes:
        spans = []
        for m in wish.measures:
            axis = AXIS_NUMBER[_axis(m.along)]
            start, end = (lines[axis].of(place[axis]) for place in (m.start, m.end))
            spans.append(Span(m.feature, m.name, axis, start, end))
        dimensions.append(Dimension(wish.text, wish.role, tuple(spans)))
    callouts = []
    for wish in (wish for wish in said if isinstance(wish, CalloutWish)):
        targets = []
        for told in wish.tells:
            side = _side(told.side)
            places = tuple(
                (lines[0].spot(place[0]), lines[1].spot(place[1]), lines[2].spot(place[2])) for place in told.places
            )
            targets.append(Target(told.feature, AXIS_NUMBER[SIDE_AXIS[side]], SIDE_SIGN[side], places))
        callouts.append(Callout(wish.lines, wish.view, tuple(targets)))
    return tuple(dimensions), tuple(callouts)


def _axis(name: str) -> Axis:
    return name  # type: ignore[return-value]


def _side(name: str) -> Side:
    return name  # type: ignore[return-value]


class Ranks:
    """The lines of one axis in order."""

    def __init__(self, places: Iterable[float]) -> None:
        self.lines: list[list[float]] = []
        for at in sorted(places):
            if self.lines and at - self.lines[-1][-1] < ONE_LINE:
                self.lines[-1].append(at)
            else:
                self.lines.append([at])

    def of(self, at: float) -> int:
        return next(rank for rank, line in enumerate(self.lines) if line[0] - 1e-9 <= at <= line[-1] + 1e-9)

    def spot(self, at: float) -> Spot:
        """On a line, or half a rank between two."""
        if not self.lines:
            return Spot(-0.5, 0)
        half = 1 if at > (self.lines[0][0] + self.lines[-1][-1]) / 2 else -1
        for rank, line in enumerate(self.lines):
            if line[0] - ONE_LINE <= at <= line[-1] + ONE_LINE:
                return Spot(rank, half)
            if at < line[0]:
                return Spot(rank - 0.5, half)
        return Spot(len(self.lines) - 0.5, half)


def _leans(drawn: DrawnPart) -> dict[tuple[int, int, int], int]:
    """Which way the ends and sides lean, by the strokes of the views that show it."""
    found: dict[tuple[int, int, int], int] = {}
    views = [v for v in (drawn.views.face, drawn.views.edge, drawn.views.end) if v is not None]
    for view, swapped, sign in product(views, (False, True), (-1, 1)):
        axes = [_axis_of(view.axes, up) for up in (swapped, not swapped)]
        (axis, way), (other, other_way) = axes
        lean = _lean(view, swapped, sign * way)
        if lean:
            found[axis, sign, other] = lean * way * other_way
    return found


def _walls(drawn: DrawnPart, said: Sequence[Wish]) -> dict[tuple[int, int, int], int]:
    """Which way the lines go that are drawn between the lines of each feature's sizes."""
    reaches: dict[tuple[int, int], tuple[float, float]] = {}
    for m in (m for wish in said if isinstance(wish, DimensionWish) for m in wish.measures if "position" not in m.name):
        key = m.feature, AXIS_NUMBER[_axis(m.along)]
        ends = m.start[key[1]], m.end[key[1]]
        low, high = reaches.get(key, ends)
        reaches[key] = min(low, *ends), max(high, *ends)
    found: dict[tuple[int, int, int], int] = {}
    views = [v for v in (drawn.views.face, drawn.views.edge, drawn.views.end) if v is not None]
    for view, feature in product(views, {feature for feature, _ in reaches}):
        pair = [_axis_of(view.axes, up) for up in (False, True)]
        for first in (0, 1):
            (axis, way), (other, other_way) = pair[first], pair[1 - first]
            here = {n: reaches.get((feature, pair[n][0]), (-FAR, FAR)) for n in (0, 1)}
            within = {n: sorted(pair[n][1] * at for at in here[n]) for n in (0, 1)}
            total = 0.0
            for shape in (stroke.shape for stroke in view.strokes if isinstance(stroke.shape, Line)):
                run, rise = (shape.end[n] - shape.start[n] for n in (first, 1 - first))
                middle = [(p + q) / 2 for p, q in zip(shape.start, shape.end, strict=True)]
                if all(within[n][0] - MARGIN < middle[n] < within[n][1] + MARGIN for n in (0, 1)) and (
                    SQUARE * 5 * abs(run) < abs(rise) < 1.2 * abs(run)
                ):
                    total += rise if run > 0 else -rise
            if total:
                found[feature, axis, other] = (1 if total > 0 else -1) * way * other_way
    return found


def _axis_of(axes: Axes, up: bool) -> tuple[int, int]:
    """The axis of the part that lies along the page's right or up, and whether it grows that way."""
    vector = axes.up if up else axes.right
    axis = max(range(3), key=lambda n: abs(vector[n]))
    return axis, 1 if vector[axis] > 0 else -1


def _lean(view: View, up: bool, sign: int) -> int:
    """Which way along the page's right (or up) the strokes at one end of it go, as the other page axis grows."""
    n = 1 if up else 0
    low, high = (view.box.bottom, view.box.top) if up else (view.box.left, view.box.right)
    total = 0.0
    for shape in (stroke.shape for stroke in view.strokes if isinstance(stroke.shape, Line)):
        along, across = (shape.end[k] - shape.start[k] for k in (n, 1 - n))
        middle = (shape.start[n] + shape.end[n]) / 2
        if abs(across) < LEAST_DRAWN or abs(along) > 2 * abs(across) or abs(along) < SQUARE * abs(across):
            continue
        if (middle - (low + high) / 2) * sign > 0:
            total += along if across > 0 else -along
    return 0 if total == 0 else 1 if total > 0 else -1
