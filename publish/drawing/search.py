"""Choosing one place for each of many things so that they stay out of each other's way.

One pass, then sweeps that choose again for each against all the others, then better places taken from one or two
others. Nothing random: the same candidates give the same choice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, Protocol, TypeVar

CLASH_COST = 1000.0
"""What an overlap costs; no sum of unsightly things comes near it."""

_SWEEPS = 12
_DISPLACING = 40
_MOST_DISPLACED = 4


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
        self._pair: dict[tuple[int, int, int, int], float] = {}

    def pair_cost(self, i: int, ci: int, j: int, cj: int) -> float:
        """What the two candidates cost together; worked out once."""
        if i > j:
            i, ci, j, cj = j, cj, i, ci
        key = (i, ci, j, cj)
        cost = self._pair.get(key)
        if cost is None:
            cost = self._pair[key] = self._cost_of_two(self.candidates[i][ci], self.candidates[j][cj])
        return cost

    def cost_of(self, i: int, ci: int, without: int = -1, below: float = float("inf")) -> float:
        """Candidate `ci` of wish `i` against all the others chosen; given up once it reaches `below`."""
        cost = self.candidates[i][ci].cost
        for j, cj in enumerate(self.chosen):
            if cj is None or j in (i, without):
                continue
            cost += self.pair_cost(i, ci, j, cj)
            if cost >= below:
                return cost
        return cost

    def best(self, i: int, without: int = -1) -> tuple[float, int | None]:
        """The cheapest candidate of thing `i` against all the others chosen: (cost, its number)."""
        best, which = float("inf"), None
        for ci, candidate in enumerate(self.candidates[i]):
            if candidate.cost >= best:
                break
            cost = self.cost_of(i, ci, without, best)
            if cost < best:
                best, which = cost, ci
        return best, which

    def total(self) -> float:
        """Cost of all that is chosen."""
        cost = 0.0
        for i, ci in enumerate(self.chosen):
            if ci is not None:
                cost += self.candidates[i][ci].cost
                cost += sum(self.pair_cost(i, ci, j, cj) for j, cj in enumerate(self.chosen[:i]) if cj is not None)
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
        for ci, candidate in enumerate(self.candidates[i][:_DISPLACING]):
            if candidate.cost >= now - 1e-6:
                break
            others = self._blockers(i, ci)
            if not others or len(others) > _MOST_DISPLACED:
                continue
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

    def _cost_about(self, some: Sequence[int]) -> float:
        """What the things `some` cost, among themselves and against all the others."""
        placed = [(i, c) for i in some if (c := self.chosen[i]) is not None]
        twice = sum(self.pair_cost(i, ci, j, cj) for n, (i, ci) in enumerate(placed) for j, cj in placed[n + 1 :])
        return sum(self.cost_of(i, c) for i, c in placed) - twice

    def _blockers(self, i: int, ci: int) -> list[int]:
        """Those chosen that stand in the way of candidate `ci` of thing `i`, the cheapest (innermost) first."""
        found = [
            (self.candidates[j][cj].cost, j)
            for j, cj in enumerate(self.chosen)
            if cj is not None and j != i and self.pair_cost(i, ci, j, cj) >= CLASH_COST / 5
        ]
        return [j for _, j in sorted(found)]

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
                if self.pair_cost(i, ci, j, cj) >= CLASH_COST:
                    count[i] = count.get(i, 0) + 1
                    count[j] = count.get(j, 0) + 1
        return count
