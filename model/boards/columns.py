"""Cutting lengths by column generation (Gilmore & Gomory 1961): the cheapest mix of ways to cut a bar.

A *pattern* is one way to cut one bar. The linear programme over the patterns found so far prices the parts;
a knapsack over these prices finds the pattern that is missing most; and the prices bound the cost from below.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from model.boards.bounds import fewest_boards
from model.boards.costs import Costs
from model.boards.knapsack import COARSE, GRID, best_fill

SHORT = 50.0  # cost of a part that is not cut, in bars of cost 1
SAME = 1e-7
ROUNDS = 1500
PULL = 0.7  # of the best prices so far on where to look next
AT_ONCE = 6  # patterns made at the same prices
LOOK = 10  # rounds after which to see whether rounding down will do already
SHARES = (0.5, 0.3, 0.7, 0.9, 1 - SAME)  # of a pattern from which on it is rounded up
MOST = 1500  # patterns in the search for whole numbers
NODES = 30  # of the search for whole numbers


@dataclass(frozen=True)
class Bar:
    """A kind of bar: its length in grown ticks, its cost (1 for the dearest), how many there are."""

    length: int
    cost: float
    limit: int | None = None


@dataclass(frozen=True)
class Pattern:
    """A way to cut one bar: how many of each part."""

    bar: int
    counts: tuple[int, ...]

    @cached_property
    def column(self) -> np.ndarray:
        """The counts as a column of the linear programme."""
        return np.array(self.counts, dtype=float)


@dataclass(frozen=True)
class CutPlan:
    """How often each pattern is cut, the parts left over, and a cost that no plan can go under."""

    uses: tuple[tuple[Pattern, int], ...]
    missing: tuple[int, ...]
    least: float


@dataclass(frozen=True)
class Task:
    """The parts to cut, sizes in grown ticks, the bars to cut them from, and how their costs are told apart."""

    sizes: tuple[int, ...]
    demands: tuple[int, ...]
    bars: tuple[Bar, ...]
    costs: Costs

    def cost(self, uses: dict[Pattern, int]) -> float:
        """Cost of a plan, parts not made included."""
        cut = [sum(times * pattern.counts[i] for pattern, times in uses.items()) for i in range(len(self.sizes))]
        short = sum(max(0, wanted - made) for wanted, made in zip(self.demands, cut, strict=True))
        return SHORT * short + sum(times * self.bars[pattern.bar].cost for pattern, times in uses.items())

    def rounded_up(self, cost: float) -> float:
        """The least cost that a plan can have which is no less than this one."""
        return self.costs.rounded_up(cost)


def plan_cuts(task: Task) -> CutPlan:
    """The cheapest plan found; the same for the same task on every machine."""
    best = dict(_greedy(task, task.demands, {}))
    least = _at_sight(task)
    if task.cost(best) - task.rounded_up(least) > SAME:
        patterns, prices, found = _generated(task, list(best), least)
        least = max(least, found)
        rounded = [_rounded(task, patterns, prices, share) for share in SHARES]
        best = min([best, *rounded], key=task.cost)
        if task.cost(best) - task.rounded_up(least) > SAME:
            pool = list(dict.fromkeys([*patterns, *(p for plan in [best, *rounded] for p in plan)]))
            best = min(best, _whole(task, pool, task.cost(best)), key=task.cost)
    uses, missing = _exact(task, best)
    return CutPlan(uses, missing, least)


def _at_sight(task: Task) -> float:
    """A bound without a linear programme, where bars are all alike; else 0."""
    if len(task.bars) > 1 or task.bars[0].limit is not None:
        return 0.0
    parts = [(size, 1, n, False) for size, n in zip(task.sizes, task.demands, strict=True)]
    return task.bars[0].cost * fewest_boards(parts, (task.bars[0].length, 1))


def _greedy(task: Task, demands: Sequence[int], used: dict[Pattern, int]) -> dict[Pattern, int]:
    """Bar after bar, each filled as full as can be; longest parts counted a little more. Or first-fit, if better."""
    plans = [_filled_full(task, demands, used), _first_fit(task, demands, used)]
    short = [sum(max(0, d - n) for d, n in zip(demands, _made(plan, len(demands)), strict=True)) for plan in plans]
    costs = [sum(task.bars[p.bar].cost * n for p, n in plan.items()) for plan in plans]
    return plans[min(range(2), key=lambda i: (short[i], costs[i]))]


def _made(uses: dict[Pattern, int], parts: int) -> list[int]:
    return [sum(times * pattern.counts[i] for pattern, times in uses.items()) for i in range(parts)]


def _room(task: Task, used: dict[Pattern, int]) -> list[int]:
    """How many bars of each kind are left."""
    gone = [sum(n for p, n in used.items() if p.bar == j) for j in range(len(task.bars))]
    return [10**9 if bar.limit is None else bar.limit - gone[j] for j, bar in enumerate(task.bars)]


def _filled_full(task: Task, demands: Sequence[int], used: dict[Pattern, int]) -> dict[Pattern, int]:
    left, room = list(demands), _room(task, used)
    longest = max(task.sizes)
    values = [size / longest * (1 + 0.02 * size / longest) for size in task.sizes]
    plan: dict[Pattern, int] = {}
    while any(left):
        fills = []
        for j, bar in enumerate(task.bars):
            if room[j] > 0:
                filling, _ = best_fill(task.sizes, values, left, bar.length)
                worth = sum(values[i] * n for i, n in enumerate(filling))
                if worth:
                    fills.append((worth / bar.cost, -j, tuple(filling)))
        if not fills:
            break
        _, j, counts = max(fills)
        times = min(room[-j], *(left[i] // n for i, n in enumerate(counts) if n))
        plan[Pattern(-j, counts)] = plan.get(Pattern(-j, counts), 0) + times
        room[-j] -= times
        left = [have - times * n for have, n in zip(left, counts, strict=True)]
    return plan


def _first_fit(task: Task, demands: Sequence[int], used: dict[Pattern, int]) -> dict[Pattern, int]:
    """Longest part first into the bar where it fits first, alike bars cut alike (first-fit decreasing)."""
    left, room = list(demands), _room(task, used)
    order = sorted(range(len(left)), key=lambda i: -task.sizes[i])
    bars = sorted(range(len(task.bars)), key=lambda j: task.bars[j].cost / task.bars[j].length)
    plan: dict[Pattern, int] = {}
    for j in bars:
        while room[j] > 0 and any(left):
            free, taken = task.bars[j].length, [0] * len(left)
            for i in order:
                taken[i] = min(left[i], free // task.sizes[i])
                free -= taken[i] * task.sizes[i]
            if not any(taken):
                break
            times = min(room[j], *(left[i] // n for i, n in enumerate(taken) if n))
            pattern = Pattern(j, tuple(taken))
            plan[pattern] = plan.get(pattern, 0) + times
            room[j] -= times
            left = [have - times * n for have, n in zip(left, taken, strict=True)]
    return plan


@dataclass(frozen=True)
class _Prices:
    """A solution of the linear programme: cost, price of each part and of each bar, use of each pattern."""

    cost: float
    parts: np.ndarray
    bars: np.ndarray
    times: np.ndarray


def _matrices(task: Task, patterns: list[Pattern]) -> tuple[np.ndarray, sparse.csr_matrix, np.ndarray]:
    """costs, A, b of `A x <= b`; the last columns are the parts left uncut."""
    parts = len(task.sizes)
    limited = [j for j, bar in enumerate(task.bars) if bar.limit is not None]
    a = np.zeros((parts + len(limited), len(patterns) + parts))
    a[:parts, : len(patterns)] = -np.stack([pattern.column for pattern in patterns], axis=1)
    of_bar = np.array([pattern.bar for pattern in patterns])
    for row, j in enumerate(limited):
        a[parts + row, : len(patterns)] = of_bar == j
    a[:parts, len(patterns) :] = -np.eye(parts)
    b = np.array([-d for d in task.demands] + [task.bars[j].limit or 0 for j in limited], dtype=float)
    costs = np.array([task.bars[p.bar].cost for p in patterns] + [SHORT] * parts)
    return costs, sparse.csr_matrix(a), b


def _priced(task: Task, patterns: list[Pattern]) -> _Prices:
    costs, a, b = _matrices(task, patterns)
    found = linprog(costs, A_ub=a, b_ub=b, bounds=(0, None), method="highs-ds")
    marginals = found.ineqlin.marginals
    parts = len(task.sizes)
    bars = np.zeros(len(task.bars))
    limited = [j for j, bar in enumerate(task.bars) if bar.limit is not None]
    bars[limited] = np.minimum(marginals[parts:], 0)
    return _Prices(float(found.fun), np.maximum(-marginals[:parts], 0), bars, found.x[: len(patterns)])


def _generated(task: Task, start: list[Pattern], least: float) -> tuple[list[Pattern], _Prices, float]:
    """All patterns worth having, the prices at the end, and the bound; `least` is a bound known before."""
    patterns = list(dict.fromkeys([*start, *_first_fit(task, task.demands, {}), *_one_part_each(task)]))
    known = set(patterns)
    # prices by length alone are sound, and near enough to start from
    centre = _by_length(task), np.zeros(len(task.bars))
    found_least = 0.0
    prices = _priced(task, patterns)
    for turn in range(1, ROUNDS):
        points = [(prices.parts, prices.bars, COARSE), (prices.parts, prices.bars, GRID)]
        # between the last prices and the best: steadier steps, fewer rounds
        parts_between = PULL * centre[0] + (1 - PULL) * prices.parts
        points.insert(0, (parts_between, PULL * centre[1] + (1 - PULL) * prices.bars, COARSE))
        added: list[Pattern] = []
        for parts, bars, grid in points:
            found, bound = _missing_patterns(task, parts, bars, grid)
            if bound > found_least:
                found_least, centre = bound, (parts, bars)
                least = max(least, bound)
            added = [p for p in found if p not in known and _saves(task, p, prices)]
            if added:
                break
        if not added or task.rounded_up(least) >= task.rounded_up(prices.cost) - SAME:
            break
        patterns += added
        known.update(added)
        prices = _priced(task, patterns)
        if turn % LOOK == 0 and task.cost(_rounded(task, patterns, prices, SHARES[0])) <= task.rounded_up(least) + SAME:
            break
    return patterns, prices, least


def _by_length(task: Task) -> np.ndarray:
    """Prices at the cheapest rate per length: no pattern is worth more than its bar."""
    return np.array(task.sizes) * min(bar.cost / bar.length for bar in task.bars)


def _one_part_each(task: Task) -> list[Pattern]:
    found = []
    for j, bar in enumerate(task.bars):
        for i, size in enumerate(task.sizes):
            n = min(bar.length // size, task.demands[i])
            if n:
                found.append(Pattern(j, tuple(n if k == i else 0 for k in range(len(task.sizes)))))
    return found


def _saves(task: Task, pattern: Pattern, prices: _Prices) -> bool:
    worth = float(np.dot(prices.parts, pattern.column))
    return worth > task.bars[pattern.bar].cost - float(prices.bars[pattern.bar]) + SAME


def _missing_patterns(task: Task, parts: np.ndarray, bars: np.ndarray, grid: int) -> tuple[list[Pattern], float]:
    """Good patterns of each bar at these prices, the best first, and the bound they prove (Farley 1990).

    The others are the best from the parts that those before have not taken: they fill the table quickly.
    """
    found, over = [], 1.0
    values = parts.tolist()
    for j, bar in enumerate(task.bars):
        left = list(task.demands)
        for turn in range(AT_ONCE):
            counts, top = best_fill(task.sizes, values, left, bar.length, grid)
            if turn == 0:
                over = max(over, top / (bar.cost - bars[j]))
            if not any(counts):
                break
            found.append(Pattern(j, tuple(counts)))
            left = [0 if n else have for n, have in zip(counts, left, strict=True)]
    worth = float(np.dot(parts, task.demands)) + sum(
        bar.limit * float(bars[j]) for j, bar in enumerate(task.bars) if bar.limit is not None
    )
    return found, worth / over


def _rounded(task: Task, patterns: list[Pattern], prices: _Prices, share: float) -> dict[Pattern, int]:
    """The linear solution rounded, up from `share` of one on as long as nothing is over; the rest cut greedily."""
    left, room = np.array(task.demands), _room(task, {})
    uses: dict[Pattern, int] = {}
    for number in sorted(np.flatnonzero(prices.times > SAME), key=lambda i: (-prices.times[i], i)):
        pattern = patterns[number]
        counts = np.array(pattern.counts)
        most = int((left[counts > 0] // counts[counts > 0]).min())
        times = min(int(prices.times[number] + 1 - share), most, room[pattern.bar])
        if times > 0:
            uses[pattern] = times
            left -= times * counts
            room[pattern.bar] -= times
    for pattern, times in _greedy(task, left.tolist(), uses).items():
        uses[pattern] = uses.get(pattern, 0) + times
    return uses


def _whole(task: Task, patterns: list[Pattern], cost: float) -> dict[Pattern, int]:
    """The best mix of whole numbers of these patterns that is cheaper than `cost`; else nothing."""
    prices = _priced(task, patterns)
    gap = cost - (task.costs.unit) - prices.cost + SAME
    over = [task.bars[p.bar].cost - float(prices.bars[p.bar]) - float(np.dot(prices.parts, p.column)) for p in patterns]
    kept = [patterns[i] for i in sorted(range(len(patterns)), key=lambda i: (over[i], i)) if over[i] <= gap][:MOST]
    if not kept:
        return {}
    costs, a, b = _matrices(task, kept)
    found = milp(
        costs,
        constraints=LinearConstraint(a, -np.inf, b),
        integrality=np.ones(len(costs)),
        bounds=Bounds(0, np.inf),
        options={"node_limit": NODES, "mip_rel_gap": 0.0},
    )
    if found.x is None:
        return {}
    return {p: round(x) for p, x in zip(kept, found.x, strict=False) if round(x) > 0}


def _exact(task: Task, uses: dict[Pattern, int]) -> tuple[tuple[tuple[Pattern, int], ...], tuple[int, ...]]:
    """The plan with nothing cut over demand, and what is missing from it."""
    left = list(task.demands)
    exact: dict[Pattern, int] = {}
    for pattern, times in uses.items():
        remaining = times
        while remaining:
            counts = tuple(min(n, have) for n, have in zip(pattern.counts, left, strict=True))
            if not any(counts):
                break
            alike = min(remaining, *(have // n for n, have in zip(counts, left, strict=True) if n))
            exact[Pattern(pattern.bar, counts)] = exact.get(Pattern(pattern.bar, counts), 0) + alike
            left = [have - alike * n for n, have in zip(counts, left, strict=True)]
            remaining -= alike
    return tuple(sorted(exact.items(), key=lambda use: (use[0].bar, [-n for n in use[0].counts]))), tuple(left)
