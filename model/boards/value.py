"""The most valuable set of parts that can be cut from one sheet by cuts from edge to edge, in any number of stages.

Parts are joined to blocks, side by side or one above the other, best first (Wang 1983; Viswanathan & Bagchi
1993). What may still be added around a block is bounded from above by a table of unlimited fillings
(Gilmore & Gomory 1966), so the first block taken up that needs nothing added is the best there is.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from operator import add, gt

import numpy as np

from model.boards.ticks import Box

FEW = 150  # sums along one axis


@dataclass(frozen=True)
class Valued:
    """Parts worth having: grown length and width, value of one, most of them, whether they may be turned."""

    length: int
    width: int
    value: float
    most: int
    turn: bool = False


@dataclass(frozen=True)
class Best:
    """The best filling found, (number of the part, box, turned) of each, and a value that none exceeds."""

    value: float
    lays: tuple[tuple[int, Box, bool], ...]
    top: float


@dataclass(frozen=True)
class _Block:
    """Parts joined: size, value, how many of each; made of two blocks (axis 0: side by side) or of one part."""

    length: int
    width: int
    value: float
    counts: tuple[int, ...]
    part: int = -1
    turned: bool = False
    axis: int = 0
    first: _Block | None = None
    second: _Block | None = None


def most_valuable(parts: Sequence[Valued], length: int, width: int, effort: int = 20_000) -> Best:
    """The best filling of a sheet; after `effort` blocks the best so far, unproven (`top` above `value`)."""
    bound = _Bound(parts, length, width)
    best = _Block(0, 0, 0.0, (0,) * len(parts))
    waiting: list[tuple[float, int, _Block]] = []
    seen: dict[tuple[int, ...], list[tuple[int, int]]] = {}
    made = 0
    for block in _single(parts, length, width):
        made += 1
        heappush(waiting, (-bound.of(block), made, block))
    done: list[_Block] = []
    for _ in range(effort):
        if not waiting or -waiting[0][0] <= best.value + 1e-9:
            return Best(best.value, tuple(_lays(best, 0, 0)), best.value)
        _, _, block = heappop(waiting)
        if _beaten(block, seen):
            continue
        done.append(block)
        best = max(best, block, key=lambda b: b.value)
        for joined in _joined(block, done, parts, (length, width)):
            top = bound.of(joined)
            if top > best.value + 1e-9:
                made += 1
                heappush(waiting, (-top, made, joined))
    top = max(best.value, -waiting[0][0]) if waiting else best.value
    return Best(best.value, tuple(_lays(best, 0, 0)), top)


def _single(parts: Sequence[Valued], length: int, width: int) -> list[_Block]:
    blocks = []
    for number, part in enumerate(parts):
        counts = tuple(int(i == number) for i in range(len(parts)))
        ways = {(part.length, part.width): False}
        if part.turn:
            ways.setdefault((part.width, part.length), True)
        for (along, across), turned in ways.items():
            if along <= length and across <= width and part.most > 0:
                blocks.append(_Block(along, across, part.value, counts, number, turned))
    return blocks


def _beaten(block: _Block, seen: dict[tuple[int, ...], list[tuple[int, int]]]) -> bool:
    """Whether a block of the same parts is known that is no larger; if not, this one is known now."""
    sizes = seen.setdefault(block.counts, [])
    if any(length <= block.length and width <= block.width for length, width in sizes):
        return True
    sizes.append((block.length, block.width))
    return False


def _joined(block: _Block, others: list[_Block], parts: Sequence[Valued], sheet: tuple[int, int]) -> list[_Block]:
    """The block with each block done so far (itself too), both ways, within sheet and limits."""
    result = []
    limits = [part.most for part in parts]
    for other in others:
        beside = block.length + other.length <= sheet[0]
        above = block.width + other.width <= sheet[1]
        if not (beside or above):
            continue
        counts = tuple(map(add, block.counts, other.counts))
        if any(map(gt, counts, limits)):
            continue
        value = block.value + other.value
        if beside:
            size = (block.length + other.length, max(block.width, other.width))
            result.append(_Block(*size, value, counts, axis=0, first=block, second=other))
        if above:
            size = (max(block.length, other.length), block.width + other.width)
            result.append(_Block(*size, value, counts, axis=1, first=block, second=other))
    return result


class _Bound:
    """What a block and all that may be added around it are worth at most.

    Every block's size is a sum of part sizes, so the tables are over these sums and small whatever the ticks.
    """

    def __init__(self, parts: Sequence[Valued], length: int, width: int) -> None:
        self.xs, self.ys = _sums(parts, 0, length), _sums(parts, 1, width)
        self.filled = self._filling(parts)
        self.around = self._surroundings()

    def of(self, block: _Block) -> float:
        """The bound for a block."""
        i, j = bisect_left(self.xs, block.length), bisect_left(self.ys, block.width)
        return block.value + float(self.around[i, j])

    def _filling(self, parts: Sequence[Valued]) -> np.ndarray:
        """Best value of each size (x index, y index), as many of each part as one likes."""
        xs, ys = np.array(self.xs), np.array(self.ys)
        best = np.zeros((len(xs), len(ys)))
        for part in parts:
            for along, across in {(part.length, part.width)} | ({(part.width, part.length)} if part.turn else set()):
                fits = (xs[:, None] >= along) & (ys[None, :] >= across) & (part.most > 0)
                best = np.where(fits, np.maximum(best, part.value), best)
        for i in range(len(xs)):
            rest_x = np.searchsorted(xs, xs[i] - xs[: i + 1], side="right") - 1
            for j in range(len(ys)):
                rest_y = np.searchsorted(ys, ys[j] - ys[: j + 1], side="right") - 1
                beside = best[: i + 1, j] + best[rest_x, j]
                above = best[i, : j + 1] + best[i, rest_y]
                best[i, j] = max(best[i, j], _inner(beside), _inner(above))
        return best

    def _surroundings(self) -> np.ndarray:
        """What the rest of the sheet around a block of each size is worth at most.

        A block grows by a neighbour beside or above it, as large as itself that way, or by mere waste.
        """
        worth = np.zeros_like(self.filled)
        steps = [_steps(self.xs), _steps(self.ys)]
        for i in reversed(range(len(self.xs))):
            by_x, to_x = steps[0][i]
            for j in reversed(range(len(self.ys))):
                by_y, to_y = steps[1][j]
                ways = [
                    (self.filled[by_x, j] + worth[to_x, j]).max(initial=0.0),
                    (self.filled[i, by_y] + worth[i, to_y]).max(initial=0.0),
                    worth[i + 1, j] if i + 1 < len(self.xs) else 0.0,
                    worth[i, j + 1] if j + 1 < len(self.ys) else 0.0,
                ]
                worth[i, j] = max(ways)
        return worth


def _steps(sums: list[int]) -> list[tuple[np.ndarray, np.ndarray]]:
    """For each sum: indices of the sums that may be added to it, and of what that makes."""
    index = {value: i for i, value in enumerate(sums)}
    result = []
    for value in sums:
        pairs = [(k, index[value + more]) for k, more in enumerate(sums) if more and value + more in index]
        result.append((np.array([k for k, _ in pairs], dtype=int), np.array([to for _, to in pairs], dtype=int)))
    return result


def _inner(sums: np.ndarray) -> float:
    """Largest of the splits into two real pieces: the first and last leave nothing on one side."""
    return float(sums[1:-1].max()) if len(sums) > 2 else 0.0


def _sums(parts: Sequence[Valued], axis: int, most: int, limit: int | None = None) -> list[int]:
    """All sums of part sizes along an axis, each taken up to its count, up to `most`; cut short past `limit`."""
    found = {0}
    for part in parts:
        for size in {(part.length, part.width)[axis]} | ({(part.length, part.width)[1 - axis]} if part.turn else set()):
            fresh = found
            for _ in range(min(part.most, most // size)):
                fresh = {s + size for s in fresh if s + size <= most} - found
                if not fresh or (limit is not None and len(found) > limit):
                    break
                found = found | fresh
    return sorted(found)


def manageable(parts: Sequence[Valued], length: int, width: int) -> bool:
    """Whether the tables stay small enough to be worth making."""
    return len(_sums(parts, 0, length, FEW)) <= FEW and len(_sums(parts, 1, width, FEW)) <= FEW


def _lays(block: _Block, x: int, y: int) -> list[tuple[int, Box, bool]]:
    """The parts of a block where they lie when its lower left corner is at (x, y)."""
    if block.part >= 0:
        return [(block.part, (x, y, x + block.length, y + block.width), block.turned)]
    if block.first is None or block.second is None:
        return []
    moved = (x + block.first.length, y) if block.axis == 0 else (x, y + block.first.width)
    return _lays(block.first, x, y) + _lays(block.second, *moved)
