"""Choosing one place for each of many things so that they stay out of each other's way.

One pass, then sweeps that choose again for each against all the others, then better places taken from a few
others. Nothing random: the same candidates give the same choice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np

from publish.drawing.segments import Floats

CLASH_COST = 1000.0
"""What an overlap costs; no sum of unsightly things comes near it."""

_SWEEPS = 12
_DISPLACING = 60
_MOST_DISPLACED = 4
_IN_THE_WAY = CLASH_COST / 5
_BETTER = 1e-6

Column = Callable[[int, int], Floats]
"""Thing and candidate to what every candidate of every thing, one after the other, costs together with it: CLASH_COST
or more where the two may not both stand; 0 for the candidates of the thing itself."""


class Search:
    """For each thing the own costs of its candidates, cheapest first, and the one chosen (None: none yet)."""

    def __init__(self, own: Sequence[Sequence[float]], column: Column):
        self.chosen: list[int | None] = [None] * len(own)
        ends = np.cumsum([0, *(len(some) for some in own)]).tolist()
        self._of = [slice(a, b) for a, b in pairwise(ends)]
        self._own = np.array([cost for some in own for cost in some], dtype=np.float64)
        self._column = column
        self._columns: dict[tuple[int, int], Floats] = {}
        self._in_vain: set[tuple[int, tuple[int | None, ...]]] = set()  # what had no better place, all else being so
        self._none = np.zeros(ends[-1])
        # what each candidate costs against the one chosen of each thing, and against all those
        self._against = np.zeros((len(own), ends[-1]))
        self._sum = np.zeros(ends[-1])

    def choose(self, i: int, c: int | None) -> None:
        """Candidate `c` for thing `i`; None takes it off."""
        if c == self.chosen[i]:
            return
        column = self._none if c is None else self._minds(i, c)
        self._sum += column - self._against[i]
        self._against[i] = column
        self.chosen[i] = c

    def _minds(self, i: int, c: int) -> Floats:
        """The column of a candidate, worked out once."""
        known = self._columns.get((i, c))
        if known is None:
            known = self._columns[i, c] = self._column(i, c)
        return known

    def start_again(self) -> None:
        """Take everything off."""
        for i in range(len(self.chosen)):
            self.choose(i, None)

    def costs(self, i: int) -> Floats:
        """What every candidate of thing `i` costs against all the others chosen."""
        costs: Floats = self._own[self._of[i]] + self._sum[self._of[i]]
        return costs

    def best(self, i: int) -> tuple[float, int | None]:
        """The cheapest candidate of thing `i` against all the others chosen: (cost, its number)."""
        costs = self.costs(i)
        if not len(costs):
            return float("inf"), None
        which = int(np.argmin(costs))
        return float(costs[which]), which

    def total(self) -> float:
        """Cost of all that is chosen."""
        there = self._there()
        return float(self._own[there].sum() + self._sum[there].sum() / 2)

    def _there(self) -> list[int]:
        return [self._of[i].start + c for i, c in enumerate(self.chosen) if c is not None]

    def sweep(self, order: Sequence[int]) -> bool:
        """Set each down again against all others; True when something moved."""
        moved = False
        for i in order:
            _, which = self.best(i)
            if which != self.chosen[i]:
                self.choose(i, which)
                moved = True
        return moved

    def displace(self) -> bool:
        """Take better places from a few others and set those down again; True when the sheet got better."""
        moved = [self._displace_for(i) for i in range(len(self.chosen))]
        return any(moved)

    def _displace_for(self, i: int) -> bool:
        here = (i, tuple(self.chosen))
        if here in self._in_vain:
            return False
        before = self.total()
        for c, others in self._contested(i):
            if not self._may_better(i, c, others, before - _BETTER):
                continue
            kept = list(self.chosen)
            self.choose(i, c)
            for j in others:
                self.choose(j, None)
            for j in others:
                self.choose(j, self.best(j)[1])
            if self.total() < before - _BETTER:
                return True
            for j in (i, *others):
                self.choose(j, kept[j])
        self._in_vain.add(here)
        return False

    def _contested(self, i: int) -> list[tuple[int, list[int]]]:
        """Better places for thing `i`, each with the few that stand in its way, the cheapest (innermost) first."""
        now = self.chosen[i]
        if now is None:
            return []
        own = self._own[self._of[i]][:_DISPLACING]
        better = int(np.searchsorted(own, self.costs(i)[now] - _BETTER))
        in_the_way = self._against[:, self._of[i]][:, :better] >= _IN_THE_WAY
        count = in_the_way.sum(axis=0)
        own_of = [float("inf") if c is None else self._own[self._of[j].start + c] for j, c in enumerate(self.chosen)]
        return [
            (c, sorted(np.flatnonzero(in_the_way[:, c]).tolist(), key=lambda j: (own_of[j], j)))
            for c in np.flatnonzero((count > 0) & (count <= _MOST_DISPLACED)).tolist()
        ]

    def _may_better(self, i: int, c: int, others: Sequence[int], than: float) -> bool:
        """Whether the sheet may cost less `than` that with candidate `c` for thing `i` and the `others` set down again.

        What it costs at least is known without trying: as though the others did not mind each other, and at first,
        without the column of that candidate, as though they did not mind it either.
        """
        away = [i, *others]
        column = self._sum - self._against[away].sum(axis=0)
        there = [self._of[j].start + c for j, c in enumerate(self.chosen) if c is not None and j not in away]
        alone = self._own + column
        cost = self._own[there].sum() + column[there].sum() / 2 + alone[self._of[i].start + c]
        if cost + sum(float(alone[self._of[j]].min()) for j in others) >= than:
            return False
        alone += self._minds(i, c)
        return bool(cost + sum(float(alone[self._of[j]].min()) for j in others) < than)

    def run(self, order: Sequence[int]) -> None:
        """Choose for each in `order`, then sweep and displace, until nothing gets better."""
        for i in order:
            self.choose(i, self.best(i)[1])
        for _ in range(_SWEEPS):
            if not self.sweep(order) and not self.displace():
                break

    def clear(self) -> None:
        """Take off what still clashes, the worst first, then see whether any of it fits after all."""
        while bad := self._clashing():
            self.choose(max(bad, key=lambda i: (bad[i], i)), None)
        for i, c in enumerate(self.chosen):
            if c is None:
                cost, which = self.best(i)
                self.choose(i, which if cost < CLASH_COST else None)

    def _clashing(self) -> dict[int, int]:
        """How many others each chosen one clashes with, for those that do."""
        things = [i for i, c in enumerate(self.chosen) if c is not None]
        count = (self._against[:, self._there()] >= CLASH_COST).sum(axis=0).tolist()
        return {i: n for i, n in zip(things, count, strict=True) if n}
