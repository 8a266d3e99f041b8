"""A stronger bound on boards of one size: the best pair of weights, for lengths and for widths, worked out in turn.

If lengths that fit side by side never weigh more than 1 together, and widths likewise, then what comes off one board
never weighs more than 1 either, a part weighing its length's weight times its width's. With the weights of one
direction held, the best ones of the other are a linear programme, whose rows come from a knapsack (Caprara & Monaci
2009). Each ends in weights that hold whatever the rounding: they are divided by the most that any fill weighs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt
from scipy.optimize import linprog

from model.boards.bounds import shares
from model.boards.knapsack import best_fill

Weights = npt.NDArray[np.float64]

STARTS = 3  # pairs that are bettered
TURNS = 6  # of one direction and the other
ROWS = 60  # of a linear programme, made at one turn
LARGEST = 160  # sizes in one direction: with more, the programmes take too long
SAME = 1e-6


@dataclass
class _Side:
    """One direction: the sizes that occur, how many parts have each, the board's own, and fills found so far."""

    sizes: tuple[int, ...]
    counts: tuple[int, ...]
    whole: int
    fills: list[list[int]] = field(default_factory=list)

    def simple(self) -> list[Weights]:
        """Weights from formulas, to begin with."""
        return [
            np.array([float(share(size, self.whole)) for size in self.sizes])
            for share in shares(
                [size for size, n in zip(self.sizes, self.counts, strict=True) for _ in range(n)], self.whole
            )
        ]

    def best(self, worth: Weights) -> Weights:
        """Weights that make the most of parts which count `worth` each size, all together."""
        for _ in range(ROWS):
            solved = linprog(-worth, self.fills, np.ones(len(self.fills)), bounds=(0, 1), method="highs-ds")
            fill, most = best_fill(self.sizes, solved.x.tolist(), self.counts, self.whole)
            if most <= 1 + SAME:
                break
            self.fills.append(fill)
        return np.asarray(solved.x) / max(1.0, most)


def paired_bound(parts: Sequence[tuple[int, int, int]], whole: tuple[int, int]) -> float:
    """Boards needed at the least, not rounded up, for parts (length, width, count) that are never turned.

    All in grown ticks. 0 where there are too many sizes to work it out.
    """
    parts = [part for part in parts if part[2]]
    lengths, widths = (_side(parts, axis, whole[axis]) for axis in (0, 1))
    if not parts or max(len(lengths.sizes), len(widths.sizes)) > LARGEST:
        return 0.0
    counts = np.zeros((len(lengths.sizes), len(widths.sizes)))
    for length, width, count in parts:
        counts[lengths.sizes.index(length), widths.sizes.index(width)] += count
    return max(_bettered(lengths, widths, counts, start) for start in _starts(lengths, widths, counts))


def _side(parts: Sequence[tuple[int, int, int]], axis: int, whole: int) -> _Side:
    many: dict[int, int] = {}
    for part in parts:
        many[part[axis]] = many.get(part[axis], 0) + part[2]
    sizes = tuple(sorted(many))
    singly = [
        [min(many[size], whole // size) if i == k else 0 for i in range(len(sizes))] for k, size in enumerate(sizes)
    ]
    return _Side(sizes, tuple(many[size] for size in sizes), whole, singly)


def _starts(lengths: _Side, widths: _Side, counts: Weights) -> list[Weights]:
    """The weights of lengths that do best with any of widths, different ones."""
    across = widths.simple()
    ranked = sorted(lengths.simple(), key=lambda f: -max(float(f @ counts @ g) for g in across))
    found: list[Weights] = []
    for weights in ranked:
        if len(found) < STARTS and all(np.abs(weights - other).max() > SAME for other in found):
            found.append(weights)
    return found


def _bettered(lengths: _Side, widths: _Side, counts: Weights, along: Weights) -> float:
    """The best that comes of these weights of lengths."""
    found = 0.0
    for _ in range(TURNS):
        across = widths.best(along @ counts)
        along = lengths.best(counts @ across)
        total = float(along @ counts @ across)
        if total < found + 1e-4:
            break
        found = total
    return found
