"""All that the sheet of a part has to say about its views: sizes and callouts, each once."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from model.frames import axis_vector
from model.piece import Part, Size
from plans.sides import SIDE_AXIS, Side
from publish.drawing.box import Box, Point, around_points
from publish.drawing.wishes import CalloutWish, DimensionWish, Measured, Pointed, Wish
from publish.edition import Edition
from publish.part_views import SUNK, DrawnPart
from publish.printed_places import PrintedPlaces, printed_places
from publish.size_trees import not_twice, of_all, rings_opened, stating
from publish.words.callouts import said

SIGNS = {"diameter": "Ø "}  # before the number of a size of that name
ACROSS = {"taper begins"}
_LONG = 4.0  # times as long as wide
_SHARES = (0.75, 0.25, 0.88, 0.12, 0.62, 0.38)  # of the length of what is long, where else it may be told
_MOST_OTHERS = 6  # of alike features at which a callout may stand besides
_ASIDE = 1.0  # mm
_NOTHING = 0.01  # mm


def wishes(edition: Edition, part: Part, drawn: DrawnPart) -> list[Wish]:
    """All that the sheet has to say: sizes first, then callouts; each once."""
    found: dict[tuple[object, ...], list[DimensionWish]] = {}
    places = printed_places(part, edition.units)
    for number, feature in enumerate(part.features):
        for size in (size for size in feature.sizes if size.value > _NOTHING):  # a taper may begin at the end itself
            wish = _dimension(edition, part, places, drawn, size, number)
            found.setdefault(_sameness(wish, size, part), []).append(wish)
    sizes = [_once(alike) for alike in found.values()]
    opened = rings_opened(not_twice(sizes), lambda key, place: drawn.view_of(key).at(place))
    return [*opened, *_callouts(edition, part, drawn)]


def _dimension(
    edition: Edition, part: Part, places: PrintedPlaces, drawn: DrawnPart, size: Size, number: int
) -> DimensionWish:
    key = drawn.key_for(size, part.spec.runs, part.spec.thick)
    seen = drawn.view_of(key)
    p0, p1 = seen.at(size.start), seen.at(size.end)
    return DimensionWish(
        key,
        p0,
        p1,
        "h" if _level(drawn, key, size) else "v",  # the ends may be corners across from each other
        printed(edition, places, size),
        size.role,
        group=f"{number} {size.along} {size.face}",
        measures=(Measured(number, size.name, size.along, size.start, size.end),),
    )


def printed(edition: Edition, places: PrintedPlaces, size: Size) -> str:
    """A size as printed: the difference of two printed places, so that chains of them close.

    A diameter is no place: it is measured across, and printed as it is.
    """
    if size.name in SIGNS:
        return SIGNS[size.name] + edition.number(size.value)
    return edition.number(places.between(size))


def _level(drawn: DrawnPart, key: str, size: Size) -> bool:
    """Whether the axis of a size lies along the page in a view."""
    right = drawn.view_of(key).axes.right
    return abs(float(axis_vector(size.along) @ np.array(right))) > 0.5


def _sameness(wish: DimensionWish, size: Size, part: Part) -> tuple[object, ...]:
    """Sizes alike in name, value and view are one thing said of several features; positions only at one place.

    A line right across the part, such as where tapers begin, is set out once, whichever view shows it.
    """
    if size.role == "size":
        return (wish.view, wish.direction, size.name, wish.text)
    axis = 0 if wish.direction == "h" else 1
    places = tuple(sorted((round(wish.p0[axis], 2), round(wish.p1[axis], 2))))
    if size.name in ACROSS and size.along == part.spec.runs:
        return (size.name, places)
    return (wish.view, wish.direction, size.role == "overall", places)


def _once(alike: list[DimensionWish]) -> DimensionWish:
    first, measures = alike[0], of_all(alike)
    return stating(first, measures) if first.role == "size" else replace(first, measures=measures)


@dataclass(frozen=True)
class _Told:
    """One callout in its view: what it tells of, where it stands, the box it fills there, how many it counts for.

    `row`: where the others of a row stand; `away`: whether it is at the end that is not seen.
    """

    of: Pointed
    at: Point
    fills: Box | None
    each: int
    row: tuple[Point, ...]
    away: bool


def _callouts(edition: Edition, part: Part, drawn: DrawnPart) -> list[CalloutWish]:
    found: dict[tuple[str, tuple[str, ...]], list[_Told]] = {}
    for number, feature in enumerate(part.features):
        for callout in feature.callouts:
            words = said(callout.what, callout.values, edition)
            if words is None:
                continue
            key = _view_for(drawn, part, callout.face)
            at = drawn.view_of(key).at
            fills = callout.fills and around_points(at(corner) for corner in callout.fills)
            row = tuple(at(point) for point in callout.row)
            away = key == "end" and callout.face != drawn.end and callout.what in SUNK
            of = Pointed(number, callout.face, (callout.point, *callout.row))
            told = _Told(of, at(callout.point), fills, words.each, row, away)
            found.setdefault((key, words.lines), []).append(told)
    return [_callout(key, lines, told, found) for (key, lines), told in found.items()]


def _callout(
    key: str, lines: tuple[str, ...], told: list[_Told], every: dict[tuple[str, tuple[str, ...]], list[_Told]]
) -> CalloutWish:
    """Told at the last of alike features, or at any other of them, or elsewhere on a long one."""
    total = sum(one.each for one in told)
    first = f"{total}× {lines[0]}" if total > 1 else lines[0]
    at = max((one.at for one in told), key=lambda p: (round(p[0], 3), round(p[1], 3)))
    cut_into = [one.fills for (view, words), some in every.items() if view == key and words != lines for one in some]
    alike = dict.fromkeys(p for one in told for p in (one.at, *one.row) if p != at)
    points = [at, *list(alike)[:: 1 + len(alike) // _MOST_OTHERS], *(p for one in told for p in _along(one))]
    clear = [p for p in points if not any(box and box.grown(_ASIDE).has(p) for box in cut_into)]
    first_point, *others = clear or points
    words = (first, *lines[1:], *_which_end(told))
    return CalloutWish(key, first_point, words, others=tuple(others), tells=tuple(one.of for one in told))


def _which_end(told: list[_Told]) -> tuple[str, ...]:
    """Told on the view of one end, of which the other hides behind it."""
    away = {one.away for one in told}
    return ("at both ends",) if len(away) == 2 else ("at the other end",) if away == {True} else ()


def _along(one: _Told) -> list[Point]:
    """Points along what is long."""
    if one.fills is None:
        return []
    x, y = one.at
    if one.fills.width > _LONG * one.fills.height:
        return [(one.fills.left + share * one.fills.width, y) for share in _SHARES]
    if one.fills.height > _LONG * one.fills.width:
        return [(x, one.fills.bottom + share * one.fills.height) for share in _SHARES]
    return []


def _view_for(drawn: DrawnPart, part: Part, face: Side) -> str:
    axis = SIDE_AXIS[face]
    if axis == part.spec.thick:
        return "face"
    if axis == part.spec.runs:
        return "end" if drawn.end is not None else "edge"
    return "edge"
