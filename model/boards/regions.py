"""Filling one board: free regions, each with the cut that may come next, and parts laid into their corners.

A region (x, y, length, width, axis, stage): the next cut in it parts it in x (axis 0) or y (axis 1) and belongs
to that stage. A part laid in its corner leaves the rest of the region and the rest of the slice cut from it,
so whatever is laid comes apart again by cuts from edge to edge, in at most the stages allowed. Grown ticks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul
from typing import Literal

from model.boards.ticks import Box

Region = tuple[int, int, int, int, int, int]
Fit = Literal["slice", "rest", "tight", "area"]  # what makes a region the best one for a part
# round defects: in the direction begun with; splits crosscut, then strips past the knots; all defects crosscut
Way = Literal["as begun", "strips", "ends"]
WAYS: tuple[Way, ...] = ("as begun", "strips", "ends")
FITS: tuple[Fit, ...] = ("slice", "tight", "area", "rest")


@dataclass(frozen=True)
class Kind:
    """Parts that are alike for laying: each way one may lie, as (along x, along y, turned)."""

    ways: tuple[tuple[int, int, bool], ...]

    @property
    def area(self) -> int:
        """Face of one part, grown."""
        return self.ways[0][0] * self.ways[0][1]


@dataclass(frozen=True)
class Unit:
    """What goes onto a board together: one part, or all that must come from one board. `kinds` by number."""

    kinds: tuple[int, ...]
    area: int


@dataclass(frozen=True)
class Lay:
    """A part where it lies."""

    kind: int
    box: Box
    turned: bool


@dataclass(frozen=True)
class Shop:
    """What does not change while boards are filled."""

    kinds: tuple[Kind, ...]
    units: tuple[Unit, ...]
    stages: int


def fill(
    shop: Shop, regions: Sequence[Region], order: Sequence[int], left: Sequence[int], fit: Fit
) -> tuple[dict[int, int], list[Lay]]:
    """Lay units on one board in the given order, as many of each as are left; how many went on, and where."""
    free = list(regions)
    room = sum(region[2] * region[3] for region in free)
    longest, widest, largest = _reach(free)
    taken: dict[int, int] = {}
    lays: list[Lay] = []
    for number in order:
        unit = shop.units[number]
        single = len(unit.kinds) == 1
        ways = shop.kinds[unit.kinds[0]].ways
        for _ in range(left[number]):
            if unit.area > (largest if single else room):
                break
            if len(ways) == 1 and (ways[0][0] > longest or ways[0][1] > widest):
                break
            laid = _lay_unit(shop, free, unit, fit)
            if laid is None:
                break
            lays += laid
            room -= unit.area
            taken[number] = taken.get(number, 0) + 1
            longest, widest, largest = _reach(free)
        if not free:
            break
    return taken, lays


def _reach(free: Sequence[Region]) -> tuple[int, int, int]:
    """The greatest length, width and area of the free regions: what is larger needs not be tried."""
    lengths, widths = [region[2] for region in free], [region[3] for region in free]
    return max(lengths, default=0), max(widths, default=0), max(map(mul, lengths, widths), default=0)


def _lay_unit(shop: Shop, free: list[Region], unit: Unit, fit: Fit) -> list[Lay] | None:
    """Lay all parts of a unit or none."""
    before = list(free) if len(unit.kinds) > 1 else free
    laid = []
    for kind in unit.kinds:
        lay = _lay(free, kind, shop.kinds[kind], shop.stages, fit)
        if lay is None:
            free[:] = before
            return None
        laid.append(lay)
    return laid


def _lay(free: list[Region], number: int, kind: Kind, stages: int, fit: Fit) -> Lay | None:
    """Lay a part into the region that suits it best and part that region."""
    # as a rule no region is large enough, or few are: those are picked out first, which takes half the time
    room = [
        (index, way, along, across, turned, region)
        for way, (along, across, turned) in enumerate(kind.ways)
        for index, region in enumerate(free)
        if region[2] >= along and region[3] >= across
    ]
    best: tuple[int, int, int] | None = None
    chosen = (0, 0, 0, False)
    for index, way, along, across, turned, (_, _, length, width, axis, stage) in room:
        main, cross = (length - along, width - across) if axis == 0 else (width - across, length - along)
        if (cross and stage >= stages) or (main and stage > stages):
            continue
        rank = (_score(fit, main, cross, length * width), index, way)
        if best is None or rank < best:
            best, chosen = rank, (index, along, across, turned)
    if best is None:
        return None
    index, along, across, turned = chosen
    x, y, length, width, axis, stage = free.pop(index)
    rest, of_slice = (
        ((x + along, y, length - along, width, 0, stage), (x, y + across, along, width - across, 1, stage + 1))
        if axis == 0
        else ((x, y + across, length, width - across, 1, stage), (x + along, y, length - along, across, 0, stage + 1))
    )
    free += [region for region in (of_slice, rest) if region[2] > 0 and region[3] > 0]
    return Lay(number, (x, y, x + along, y + across), turned)


def _score(fit: Fit, main: int, cross: int, area: int) -> int:
    """The less the better: `main` is left of the region behind the part, `cross` of the slice beside it."""
    if fit == "slice":
        return cross
    if fit == "tight":
        return min(main, cross)
    return area if fit == "area" else main


def clear_regions(region: Region, defects: Sequence[Box], way: Way) -> list[Region]:
    """A board's regions clear of defects, cut out from edge to edge in one of several ways."""
    x, y, length, width, _, stage = region
    inside = _inside(region, defects)
    if not inside:
        return [region]
    for axis, cut_out in _tries(region, inside, way):
        slices = _around((x, y, length, width, axis, stage), cut_out)
        if slices is not None:
            return [found for part in slices for found in clear_regions(_turned(part, axis, defects), defects, way)]
    return []


def _tries(region: Region, inside: list[Box], way: Way) -> list[tuple[int, list[Box]]]:
    """Directions to cut in and the defects to cut out, the first that goes is taken."""
    if way == "strips":
        across = [d for d in inside if d[1] <= region[1] and d[3] >= region[1] + region[3]]
        return [(0, across)] * bool(across) + [(1, inside), (0, inside)]
    axis = region[4] if way == "as begun" else 0
    return [(axis, inside), (1 - axis, inside)]


def _turned(part: Region, axis: int, defects: Sequence[Box]) -> Region:
    """A slice with a defect in it is next cut the other way."""
    x, y, length, width, along, stage = part
    return (x, y, length, width, 1 - axis, stage + 1) if along == axis and _inside(part, defects) else part


def _inside(region: Region, defects: Sequence[Box]) -> list[Box]:
    x, y, length, width, *_ = region
    return [d for d in defects if d[0] < x + length and d[2] > x and d[1] < y + width and d[3] > y]


def _around(region: Region, defects: Sequence[Box]) -> list[Region] | None:
    """Slices between the defects, and slices with defects in them to be cut the other way; None: all one slice."""
    x, y, length, width, axis, stage = region
    start, end = (x, x + length) if axis == 0 else (y, y + width)
    runs: list[tuple[int, int, bool]] = []
    at = start
    for low, high in sorted((max(start, d[axis]), min(end, d[axis + 2])) for d in defects):
        if low > at:
            runs.append((at, low, True))
        if runs and not runs[-1][2] and low <= at:
            runs[-1] = (runs[-1][0], max(at, high), False)
        elif high > at:
            runs.append((max(at, low), high, False))
        at = max(at, high)
    if at < end:
        runs.append((at, end, True))
    if len(runs) == 1:
        return None
    slices: list[Region] = []
    for low, high, clear in runs:
        box = (low, y, high - low, width) if axis == 0 else (x, low, length, high - low)
        slices.append((*box, axis, stage) if clear else (*box, 1 - axis, stage + 1))
    return slices
