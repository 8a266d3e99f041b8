"""Choosing one place for each of many things so that they stay out of each other's way.

One pass, then sweeps that choose again for each against all the others, then better places taken from one or two
others. Nothing random: the same candidates give the same choice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

CLASH_COST = 1000.0
"""What an overlap costs; no sum of unsightly things comes near it."""

_SWEEPS = 12
_DISPLACING = 40
_MOST_DISPLACED = 4


Floats = NDArray[np.float64]


class Candidate(Protocol):
    """A place with a cost of its own."""

    @property
    def cost(self) -> float:
        """What the place costs with nothing else on the sheet."""


P = TypeVar("P", bound=Candidate)


class Search(Generic[P]):
    """For each thing its candidates, cheapest first, and the one chosen (None: none yet).

    `pair_cost` says what two candidates cost together: CLASH_COST or more where they may not both stand.
    """

    def __init__(self, candidates: Sequence[Sequence[P]], pair_cost: Callable[[P, P], float]):
        self.candidates = candidates
        self._cost_of_two = pair_cost
        self.chosen: list[int | None] = [None] * len(candidates)
        self._own = [np.array([c.cost for c in some], dtype=np.float64) for some in candidates]
        self._against: dict[tuple[int, int, int], Floats] = {}

    def against(self, i: int, j: int, cj: int) -> Floats:
        """What every candidate of thing `i` costs together with candidate `cj` of thing `j`; worked out once."""
        key = (i, j, cj)
        costs = self._against.get(key)
        if costs is None:
            other = self.candidates[j][cj]
            pairs = [self._cost_of_two(c, other) if i < j else self._cost_of_two(other, c) for c in self.candidates[i]]
            costs = self._against[key] = np.array(pairs, dtype=np.float64)
        return costs

    def costs(self, i: int) -> Floats:
        """What every candidate of thing `i` costs against all the others chosen."""
        total = self._own[i].copy()
        for j, cj in enumerate(self.chosen):
            if cj is not None and j != i:
                total += self.against(i, j, cj)
        return total

    def cost_of(self, i: int, ci: int) -> float:
        """Candidate `ci` of thing `i` against all the others chosen."""
        return float(self.costs(i)[ci])

    def best(self, i: int) -> tuple[float, int | None]:
        """The cheapest candidate of thing `i` against all the others chosen: (cost, its number)."""
        if not len(self._own[i]):
            return float("inf"), None
        costs = self.costs(i)
        which = int(np.argmin(costs))
        return float(costs[which]), which

    def total(self) -> float:
        """Cost of all that is chosen."""
        return self._cost_among([(i, c) for i, c in enumerate(self.chosen) if c is not None])

    def _cost_among(self, placed: Sequence[tuple[int, int]]) -> float:
        cost = sum(float(self._own[i][ci]) for i, ci in placed)
        for n, (i, ci) in enumerate(placed):
            cost += sum(float(self.against(i, j, cj)[ci]) for j, cj in placed[n + 1 :])
        return cost

    def sweep(self, order: Sequence[int]) -> bool:
        """Set each down again against all others; True when something moved."""
        moved = False
        for i in order:
            _, which = self.best(i)
            if which != self.chosen[i]:
                self.chosen[i], moved = which, True
        return moved

    def displace(self) -> bool:
        """Take better places from a few others and set those down again; True when the sheet got better."""
        moved = [self._displace_for(i, self.cost_of(i, ci)) for i, ci in enumerate(self.chosen) if ci is not None]
        return any(moved)

    def _displace_for(self, i: int, now: float) -> bool:
        for ci, others in self._contested(i, now):
            kept, before = list(self.chosen), self._cost_about([i, *others])
            self.chosen[i] = ci
            for j in others:
                self.chosen[j] = None
            for j in others:
                _, self.chosen[j] = self.best(j)
            if self._cost_about([i, *others]) < before - 1e-6:
                return True
            self.chosen = kept
        return False

    def _contested(self, i: int, now: float) -> list[tuple[int, list[int]]]:
        """Better places for thing `i`, each with the few that stand in its way, the cheapest (innermost) first."""
        there = [(j, cj) for j, cj in enumerate(self.chosen) if cj is not None and j != i]
        if not there:
            return []
        stack = np.array([self.against(i, j, cj)[:_DISPLACING] for j, cj in there])
        by_cost = sorted(range(len(there)), key=lambda n: (self._own[there[n][0]][there[n][1]], there[n][0]))
        found = []
        for ci in range(stack.shape[1]):
            if self._own[i][ci] >= now - 1e-6:
                break
            others = [there[n][0] for n in by_cost if stack[n, ci] >= CLASH_COST / 5]
            if others and len(others) <= _MOST_DISPLACED:
                found.append((ci, others))
        return found

    def _cost_about(self, some: Sequence[int]) -> float:
        """What the things `some` cost, among themselves and against all the others."""
        placed = [(i, c) for i in some if (c := self.chosen[i]) is not None]
        twice = self._cost_among(placed) - sum(float(self._own[i][ci]) for i, ci in placed)
        return sum(self.cost_of(i, c) for i, c in placed) - twice

    def run(self, order: Sequence[int]) -> None:
        """Choose for each in `order`, then sweep and displace, until nothing gets better."""
        for i in order:
            _, self.chosen[i] = self.best(i)
        for _ in range(_SWEEPS):
            if not self.sweep(order) and not self.displace():
                break

    def clear(self) -> None:
        """Take off what still clashes, the worst first, then see whether any of it fits after all."""
        while bad := self._clashing():
            self.chosen[max(bad, key=lambda i: (bad[i], i))] = None
        for i, c in enumerate(self.chosen):
            if c is None:
                cost, which = self.best(i)
                self.chosen[i] = which if cost < CLASH_COST else None

    def _clashing(self) -> dict[int, int]:
        count: dict[int, int] = {}
        placed = [(i, c) for i, c in enumerate(self.chosen) if c is not None]
        for n, (i, ci) in enumerate(placed):
            for j, cj in placed[n + 1 :]:
                if self.against(i, j, cj)[ci] >= CLASH_COST:
                    count[i] = count.get(i, 0) + 1
                    count[j] = count.get(j, 0) + 1
        return count
