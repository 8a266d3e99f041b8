"""What the places on a sheet cost together: overlaps, which may not be, and what is merely unsightly.

The candidates of all wishes are stacked in arrays once; a column is one candidate against all the others at a time.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from publish.drawing.box import Segment
from publish.drawing.placement import ROW_APART, SAME_PLACE, Placement
from publish.drawing.search import CLASH_COST
from publish.drawing.segments import Bools, Floats, Ints, bounds, cross, grown, meet, run_through, shortened, stacked
from publish.drawing.wishes import DimensionWish

_NESTING_COST = 300.0
_SPLIT_GROUP = 18.0
_BROKEN_CHAIN = 10.0

_STROKE, _DIMENSION, _EXTENSION, _LEADER = range(4)
_CROSSED = np.array(
    [
        [0.0, 0.0, 0.0, 0.0],
        [0.0, 40.0, 8.0, 30.0],
        [0.0, 8.0, 1.0, 10.0],
        [0.0, 30.0, 10.0, 0.0],
    ]
)
"""What two crossing lines cost, by what they are; strokes are the parts of dimension lines, leaders may never cross."""


class _Lines:
    """The lines of all candidates, each one's together; dimension lines as a whole besides their strokes.

    at, shorter, box: 4 x m; kind, owner (the candidate's number): m; first: where each candidate's start, and the end.
    """

    def __init__(self, placements: Sequence[Placement]):
        by_kind = [(p.strokes, (p.dimension,) if p.dimension else (), p.extensions, p.leader) for p in placements]
        every: list[Segment] = [s for kinds in by_kind for lines in kinds for s in lines]
        counts: Ints = np.array([[len(lines) for lines in kinds] for kinds in by_kind], dtype=np.int64).reshape(-1, 4)
        self.at = stacked(every)
        self.shorter = shortened(self.at)
        self.box = bounds(self.at)
        self.kind: Ints = np.repeat(np.tile(np.arange(4), len(placements)), counts.reshape(-1))
        self.owner: Ints = np.repeat(np.arange(len(placements)), counts.sum(axis=1))
        self.first: Ints = np.concatenate([[0], np.cumsum(counts.sum(axis=1))])

    def of(self, k: int) -> Ints:
        """The numbers of the lines of candidate `k`."""
        return np.arange(self.first[k], self.first[k + 1])


class _Rows:
    """How the dimensions among the candidates lie: arrays with one entry a candidate, -1 or NaN for notes.

    family: of one view and direction; across, start, end: their lines' place and stretch on paper.
    """

    def __init__(self, placements: Sequence[Placement]):
        codes: dict[object, int] = {}

        def code(*name: str) -> int:
            return codes.setdefault(name, len(codes)) if all(name) else -1

        wishes = [p.wish if isinstance(p.wish, DimensionWish) else None for p in placements]
        lines = [_along(p) for p in placements]
        self.direction: Ints = np.array([code(w.direction) if w else -1 for w in wishes], dtype=np.int64)
        self.family: Ints = np.array(
            [code(w.view, w.direction) if w and p.side else -1 for w, p in zip(wishes, placements, strict=True)],
            dtype=np.int64,
        )
        self.group: Ints = np.array([code(w.group) if w else -1 for w in wishes], dtype=np.int64)
        self.side: Ints = np.array([code(p.side or "") for p in placements], dtype=np.int64)
        self.row: Ints = np.array([p.row for p in placements], dtype=np.int64)
        self.span: Floats = np.array([p.span for p in placements], dtype=np.float64).reshape(-1, 2).T
        self.across, self.start, self.end = np.array(lines, dtype=np.float64).reshape(-1, 3).T

    def on_one_line(self, k: int) -> Bools:
        """Whose dimension line is parallel to `k`'s, closer than a row and over the same stretch."""
        shared = np.minimum(self.end, self.end[k]) - np.maximum(self.start, self.start[k])
        near = np.abs(self.across - self.across[k]) < ROW_APART
        found: Bools = (self.direction == self.direction[k]) & near & (shared > SAME_PLACE)
        return found

    def crossing(self, k: int) -> Bools:
        """Which dimension lines lie the other way than that of `k`."""
        found: Bools = ~np.isnan(self.across) & ~np.isnan(self.across[k]) & (self.direction != self.direction[k])
        return found

    def order(self, k: int) -> Floats:
        """What the order of rows costs: a long dimension inside a short one, a group torn apart."""
        costs = np.zeros(len(self.row))
        if self.family[k] < 0:
            return costs
        n = np.flatnonzero(self.family == self.family[k])
        (a0, a1), (b0, b1) = self.span[:, n], self.span[:, k]
        longer = (a1 - a0) - (b1 - b0)
        round_it = (a0 <= b0 + SAME_PLACE) & (a1 >= b1 - SAME_PLACE) & (longer > SAME_PLACE)
        inside = (b0 <= a0 + SAME_PLACE) & (b1 >= a1 - SAME_PLACE) & (longer < -SAME_PLACE)
        further = self.row[n] - self.row[k]
        ends_meet = (np.abs(a1 - b0) < SAME_PLACE) | (np.abs(b1 - a0) < SAME_PLACE)
        together = (self.group[n] == self.group[k]) & (self.group[k] >= 0)
        costs[n] = np.select(
            [self.side[n] != self.side[k], round_it, inside, together & ends_meet],
            [
                _SPLIT_GROUP * together,
                _NESTING_COST * (further <= 0),
                _NESTING_COST * (further >= 0),
                _BROKEN_CHAIN * np.minimum(2, np.abs(further)),
            ],
        )
        return costs


def _along(p: Placement) -> tuple[float, float, float]:
    """A dimension line's place across its direction, and where it starts and ends along it; NaN for a note."""
    line = p.dimension
    if line is None or not isinstance(p.wish, DimensionWish):
        return (float("nan"),) * 3
    return (line.y0, line.x0, line.x1) if p.wish.direction == "h" else (line.x0, line.y0, line.y1)


class PairCosts:
    """The candidates of every wish, one list a wish, ready to be set against each other; `clearance` round text, mm."""

    def __init__(self, candidates: Sequence[Sequence[Placement]], clearance: float):
        every = [p for some in candidates for p in some]
        self._start: Ints = np.concatenate([[0], np.cumsum([len(some) for some in candidates], dtype=np.int64)])
        self._lines = _Lines(every)
        self._rows = _Rows(every)
        text = stacked([p.text for p in every])
        self._text = grown(text, clearance)
        drawn = self._lines.kind != _DIMENSION
        self._box = _round(text, self._lines.box[:, drawn], self._lines.owner[drawn])

    def column(self, i: int, c: int) -> Floats:
        """What each candidate of all costs together with candidate `c` of wish `i`; nothing those of `i` itself."""
        k = int(self._start[i]) + c
        clash = self._on_text(k) | self._rows.on_one_line(k)
        costs = self._rows.order(k) + self._crossed(k, clash)
        costs += CLASH_COST * clash
        costs[self._start[i] : self._start[i + 1]] = 0.0
        return costs

    def _on_text(self, k: int) -> Bools:
        """Whose text or lines lie on the text of `k`, or whose text on its lines."""
        text, lines = self._text[:, k, None], self._lines
        clash = meet(self._text, text)
        near = np.flatnonzero(meet(self._text, self._box[:, k, None]) & ~clash)
        mine = lines.of(k)
        mine = mine[lines.kind[mine] != _DIMENSION]
        clash[near] = run_through(lines.at[:, mine, None], self._text[:, None, near]).any(axis=0)
        near_lines = np.flatnonzero(meet(lines.box, text) & (lines.kind != _DIMENSION))
        hit = run_through(lines.at[:, near_lines], text)
        clash[lines.owner[near_lines[hit]]] = True
        return clash

    def _crossed(self, k: int, clash: Bools) -> Floats:
        """What the lines that cross those of `k` cost; leaders on leaders are marked in `clash`."""
        lines = self._lines
        mine = lines.of(k)
        mine = mine[lines.kind[mine] != _STROKE]
        near = meet(lines.box, grown(self._box[:, k, None], SAME_PLACE))
        others = np.flatnonzero(near & (lines.kind != _STROKE))
        first, second = np.nonzero(cross(lines.at[:, mine, None], lines.at[:, None, others]))
        a, b = mine[first], others[second]
        kinds, owner = (lines.kind[a], lines.kind[b]), lines.owner[b]
        clash[owner[(kinds[0] == _LEADER) & (kinds[1] == _LEADER)]] = True
        # lines that merely end on each other, as those of a chain do, are well
        counts = cross(lines.shorter[:, a], lines.shorter[:, b])
        alike = kinds[0] == kinds[1]
        counts = np.where(alike, (counts | (kinds[0] == _DIMENSION)) & self._rows.crossing(k)[owner], counts)
        counts &= meet(self._box, self._box[:, k, None])[owner]
        costs: Floats = np.bincount(owner, _CROSSED[kinds] * counts, len(clash)).astype(np.float64)
        return costs


def _round(boxes: Floats, more: Floats, owner: Ints) -> Floats:
    """Each of `boxes` grown to hold those of `more` that belong to it."""
    whole = boxes.copy()
    for side, take in enumerate((np.minimum, np.minimum, np.maximum, np.maximum)):
        take.at(whole[side], owner, more[side])
    return whole
