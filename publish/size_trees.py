"""Sizes of a view as a tree: none is said twice, and what follows from others stands in brackets."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from scipy.cluster.hierarchy import DisjointSet

from plans.sides import AXIS_NUMBER, Axis
from publish.drawing.box import Point
from publish.drawing.wishes import DimensionWish, Measured, Place

_SAME_LINE = 0.01  # mm
_ONE_TO_THE_EYE = 0.25  # mm
_ONE_IN_PRINT = 0.02  # mm
_COUNT = re.compile(r"^\d+× ")
_FIRST = {"overall": 0, "position": 2, "size": 3, "reference": 4}
_COUNTED = 1

_Line = tuple[str, str, float]  # view, direction, and where along it


def of_all(alike: Iterable[DimensionWish]) -> tuple[Measured, ...]:
    """Everything that some dimensions measure."""
    return tuple(measured for wish in alike for measured in wish.measures)


def span_of(wish: DimensionWish) -> tuple[float, ...]:
    """From where to where a dimension runs along the page, to a hundredth."""
    axis = 0 if wish.direction == "h" else 1
    return tuple(sorted((round(wish.p0[axis], 2), round(wish.p1[axis], 2))))


def not_twice(sizes: list[DimensionWish]) -> list[DimensionWish]:
    """No two dimensions between the same two lines of a view: an overall size wins over a feature's.

    Lines that are told apart neither by the numbers nor by the eye (a groove made a shaving wider than the mortise in
    it) are one, measured at the end from which one measures.
    """
    kept: list[DimensionWish] = []
    for wish in sorted(sizes, key=lambda w: w.role != "overall"):
        twin = next((n for n, other in enumerate(kept) if _between_the_same(wish, other)), None)
        if twin is None:
            kept.append(wish)
            continue
        both = kept[twin], wish
        nearer = both[1] if both[0].role == wish.role and _aside(wish) < _aside(both[0]) else both[0]
        kept[twin] = stating(nearer, of_all(both))
    return kept


def stating(wish: DimensionWish, measures: tuple[Measured, ...]) -> DimensionWish:
    """The size said of all that it measures, with their count: what is alike at both ends is `2×`."""
    times = len(_distinct(measures))
    said = _COUNT.sub("", wish.text)
    return replace(wish, text=f"{times}× {said}" if times > 1 else said, measures=measures)


def _distinct(measures: Iterable[Measured]) -> list[list[Measured]]:
    """Those that the eye tells apart, each with what runs between the same two lines."""
    found: list[list[Measured]] = []
    for measured in measures:
        low, high = _reach(measured)
        for alike in found:
            there = _reach(alike[0])
            if max(abs(there[0] - low), abs(there[1] - high)) < _ONE_TO_THE_EYE:
                alike.append(measured)
                break
        else:
            found.append([measured])
    return found


def _reach(measured: Measured) -> tuple[float, float]:
    along: Axis = measured.along  # type: ignore[assignment]
    low, high = sorted(place[AXIS_NUMBER[along]] for place in (measured.start, measured.end))
    return low, high


def rings_opened(sizes: list[DimensionWish], at: Callable[[str, Place], Point] | None = None) -> list[DimensionWish]:
    """A size that follows from others of its view is put in brackets: lines and sizes then form a tree (Dori 1992).

    `3×` is three sizes; what follows of them is told apart from the rest, measured where `at` says it lies. Sizes that
    stand for several come before positions: of `2× 36` and the place where the second begins, it is the place that
    follows.
    """
    lines = _one_line(sizes)
    joined = DisjointSet(set(lines.values()))
    for wish in sizes:
        for alike in _distinct(wish.measures):
            for measured in alike[1:]:  # drawn so near each other that they are one
                for a, b in zip(_reach(alike[0]), _reach(measured), strict=True):
                    joined.merge(lines[_line(wish, a)], lines[_line(wish, b)])
    opened: dict[int, list[DimensionWish]] = {}
    for n, wish in sorted(enumerate(sizes), key=lambda numbered: _first(numbered[1])):
        if wish.role == "reference":
            opened[n] = [wish]
            continue
        spans = [(_reach(alike[0]), alike) for alike in _distinct(wish.measures)] or [(_ends(wish), [])]
        joins = [joined.merge(lines[_line(wish, low)], lines[_line(wish, high)]) for (low, high), _ in spans]
        if all(joins):
            opened[n] = [wish]
        elif at is None or not any(joins):
            opened[n] = [replace(wish, role="reference")]
        else:
            new, follow = (
                [m for (_, alike), join in zip(spans, joins, strict=True) if join is wanted for m in alike]
                for wanted in (True, False)
            )
            opened[n] = [_measured_at(wish, new, at), replace(_measured_at(wish, follow, at), role="reference")]
    return [wish for n in range(len(sizes)) for wish in opened[n]]


def _first(wish: DimensionWish) -> int:
    return _COUNTED if wish.role == "size" and len(_distinct(wish.measures)) > 1 else _FIRST[wish.role]


def _line(wish: DimensionWish, at: float) -> _Line:
    return wish.view, wish.direction, at


def _ends(wish: DimensionWish) -> tuple[float, float]:
    low, high = span_of(wish)
    return low, high


def _one_line(sizes: Sequence[DimensionWish]) -> dict[_Line, _Line]:
    """Each line that sizes run from, and the first of those that print as one with it."""
    found = sorted(
        {
            _line(wish, at)
            for wish in sizes
            for at in ([at for m in wish.measures for at in _reach(m)] if wish.measures else span_of(wish))
        }
    )
    first = {line: line for line in found[:1]}
    for before, line in pairwise(found):
        near = before[:2] == line[:2] and line[2] - before[2] < _ONE_IN_PRINT
        first[line] = first[before] if near else line
    return first


def _measured_at(wish: DimensionWish, measures: Sequence[Measured], at: Callable[[str, Place], Point]) -> DimensionWish:
    """The same size said of some of what it measures, drawn there."""
    first = measures[0]
    moved = replace(wish, p0=at(wish.view, first.start), p1=at(wish.view, first.end))
    return stating(moved, tuple(measures))


def _aside(wish: DimensionWish) -> float:
    """Where on the other axis of the page a size is measured: low where it is near the end one measures from."""
    axis = 1 if wish.direction == "h" else 0
    return min(wish.p0[axis], wish.p1[axis])


def _between_the_same(a: DimensionWish, b: DimensionWish) -> bool:
    if (a.view, a.direction) != (b.view, b.direction):
        return False
    apart = max(abs(p - q) for p, q in zip(span_of(a), span_of(b), strict=True))
    return apart < _SAME_LINE or (a.text == b.text and apart < _ONE_TO_THE_EYE)
