"""Which parts fill one length best: a bounded knapsack, exact where the sizes share a grid."""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

import numpy as np

GRID = 20_000  # cells of one table; finer sizes are first rounded in their favour, then against it
COARSE = 2_500  # cells for a first look
LEAST = 1e-9  # a part worth less is left out


def best_fill(
    sizes: Sequence[int], values: Sequence[float], limits: Sequence[int], capacity: int, grid: int = GRID
) -> tuple[list[int], float]:
    """How many of each to take, and a value that no filling exceeds.

    sizes and capacity in ticks (> 0), values >= 0, limits: most of each. The filling is the best there is
    whenever all sizes share a grid of at most `grid` cells, and nearly always when they do not.
    """
    worth = [i for i, size in enumerate(sizes) if values[i] > LEAST and size <= capacity and limits[i] > 0]
    counts = [0] * len(sizes)
    if not worth:
        return counts, 0.0
    unit = gcd(*(sizes[i] for i in worth))
    step = max(unit, -(-capacity // grid))
    chosen, top = _filled([sizes[i] // step for i in worth], worth, values, limits, capacity // step)
    if sum(sizes[i] * n for i, n in chosen) > capacity:
        chosen, _ = _filled([-(-sizes[i] // step) for i in worth], worth, values, limits, capacity // step)
    for i, n in chosen:
        counts[i] = n
    return counts, top


def _filled(
    cells: list[int], worth: list[int], values: Sequence[float], limits: Sequence[int], room: int
) -> tuple[list[tuple[int, int]], float]:
    """The table over `room` cells, one row for each part or bundle of 2, 4, 8... alike parts."""
    best = np.zeros(room + 1)
    bundles: list[tuple[int, int, int]] = []
    rows = []
    for i, size in zip(worth, cells, strict=True):
        left, bundle = min(limits[i], room // size if size else limits[i]), 1
        while left > 0:
            bundle = min(bundle, left)
            weight = bundle * size
            with_it = best[: room + 1 - weight] + bundle * values[i]
            better = with_it > best[weight:] + LEAST
            best[weight:] = np.where(better, with_it, best[weight:])
            rows.append(better)
            bundles.append((i, bundle, weight))
            left, bundle = left - bundle, bundle * 2
    taken: dict[int, int] = {}
    cell = room
    for (i, bundle, weight), better in zip(reversed(bundles), reversed(rows), strict=True):
        if cell >= weight and better[cell - weight]:
            taken[i] = taken.get(i, 0) + bundle
            cell -= weight
    return sorted(taken.items()), float(best[room]) + LEAST * len(bundles)
