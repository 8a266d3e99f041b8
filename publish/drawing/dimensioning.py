"""Setting down the dimensions, callouts and angles of a sheet so that nothing overlaps.

In each of a few orders: one pass, then sweeps that set each down again against all the others, then better places taken
from others that are set down again. What still overlaps is taken off the sheet and handed back: never drawn,
never lost.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from publish.drawing.box import Box
from publish.drawing.clashes import Clash, clashes
from publish.drawing.dimension_places import dimension_places
from publish.drawing.note_places import angle_places, callout_places
from publish.drawing.pair_costs import PairCosts
from publish.drawing.placed import PlacedView
from publish.drawing.placement import Ground, Placement
from publish.drawing.records import Record
from publish.drawing.search import Search
from publish.drawing.style import HOUSE, HouseStyle
from publish.drawing.wishes import AngleWish, CalloutWish, DimensionWish, Wish


@dataclass(frozen=True)
class Layout:
    """What was placed, in the order wished, and the wishes for which there was no place."""

    placements: tuple[Placement, ...]
    unplaced: tuple[Wish, ...]
    cost: float
    style: HouseStyle = HOUSE

    def records(self) -> list[Record]:
        """Everything drawn."""
        return [r for p in self.placements for r in p.records(self.style)]

    def boxes(self) -> list[Box]:
        """Boxes round each placement's text and lines, for whatever is set on the sheet afterwards."""
        return [p.text for p in self.placements] + [s.box for p in self.placements for s in p.lines]


_PLACES: dict[type, Callable[[Any, Ground, HouseStyle, bool], list[Placement]]] = {
    DimensionWish: dimension_places,
    CalloutWish: lambda wish, ground, style, _tight: callout_places(wish, ground, style),
    AngleWish: lambda wish, ground, style, _tight: angle_places(wish, ground, style),
}


def _span(wish: Wish) -> float:
    if isinstance(wish, DimensionWish):
        axis = 0 if wish.direction == "h" else 1
        return abs(wish.p1[axis] - wish.p0[axis])
    return float("inf")


def _orders(wishes: Sequence[Wish]) -> list[list[int]]:
    short_first = sorted(range(len(wishes)), key=lambda i: (_span(wishes[i]), i))
    notes_first = sorted(range(len(wishes)), key=lambda i: (isinstance(wishes[i], DimensionWish), _span(wishes[i]), i))
    return [short_first, notes_first, short_first[::-1], notes_first[::-1]]


def _attempt(wishes: Sequence[Wish], ground: Ground, style: HouseStyle, tight: bool) -> Layout:
    candidates = [_PLACES[type(w)](w, ground, style, tight) for w in wishes]
    pairs = PairCosts(candidates, style.spacing.text_clearance)
    search = Search([[c.cost for c in some] for some in candidates], pairs.column)
    best: Layout | None = None
    for order in _orders(wishes):
        search.start_again()
        search.run(order)
        search.clear()
        placed = tuple(candidates[i][c] for i, c in enumerate(search.chosen) if c is not None)
        missing = tuple(wishes[i] for i, c in enumerate(search.chosen) if c is None)
        layout = Layout(placed, missing, search.total(), style)
        if best is None or (len(missing), layout.cost) < (len(best.unplaced), best.cost):
            best = layout
    assert best is not None
    return best


def place(
    wishes: Sequence[Wish],
    views: Sequence[PlacedView],
    free: Box,
    taken: Sequence[Box] = (),
    style: HouseStyle = HOUSE,
) -> Layout:
    """Set down `wishes` about `views` inside `free`, clear of the boxes `taken`, all paper mm.

    First at the house's row distances; where that leaves something over, at the least ones. KeyError for a wish about a
    view that is not on the sheet.
    """
    ground = Ground(free, {v.key: v for v in views}, tuple(taken))
    layout = _attempt(wishes, ground, style, tight=False)
    if not layout.unplaced:
        return layout
    tight = _attempt(wishes, ground, style, tight=True)
    return tight if len(tight.unplaced) < len(layout.unplaced) else layout


def overlaps(layout: Layout) -> list[Clash]:
    """Overlaps in a finished layout, counted from its own boxes and lines; none, unless there is a bug here."""
    return clashes(layout.placements, layout.style.spacing.text_clearance)
