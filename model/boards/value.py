"""The most valuable set of parts that can be cut from one sheet by cuts from edge to edge, in any number of stages.

Parts are joined to blocks, side by side or one above the other, best first (Wang 1983; Viswanathan & Bagchi
1993). What may still be added around a block is bounded from above by a table of unlimited fillings
(Gilmore & Gomory 1966), so the first block taken up that needs nothing added is the best there is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from model.boards.ticks import Box


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
    """The best filling: value, (number of the part, box, turned) of each, and whether it is proven."""

    value: float
    lays: tuple[tuple[int, Box, bool], ...]
    proven: bool


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
    """The best filling of a sheet; after `effort` blocks the best so far, unproven. Effort never looks at the clock."""
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
            return Best(best.value, tuple(_lays(best, 0, 0)), True)
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
    return Best(best.value, tuple(_lays(best, 0, 0)), False)


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
    for other in others:
        beside = block.length + other.length <= sheet[0]
        above = block.width + other.width <= sheet[1]
        if not (beside or above):
            continue
        counts = tuple(a + b for a, b in zip(block.counts, other.counts, strict=True))
        if any(n > part.most for n, part in zip(counts, parts, strict=True)):
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

    Sizes are mapped to the sums of part sizes that fit the sheet; a size between two counts as the lower one
    where it is room, so the tables stay small whatever the ticks.
    """

    def __init__(self, parts: Sequence[Valued], length: int, width: int) -> None:
        turned = [p for p in parts if p.turn]
        self.xs = _sums([(p.length, p.most) for p in parts] + [(p.width, p.most) for p in turned], length)
        self.ys = _sums([(p.width, p.most) for p in parts] + [(p.length, p.most) for p in turned], width)
        self.length, self.width = length, width
        self.filled = self._filling(parts)
        self.around: dict[tuple[int, int], float] = {}

    def of(self, block: _Block) -> float:
        """The bound for a block."""
        return block.value + self._around(block.length, block.width)

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
                across = best[: i + 1, j] + best[rest_x, j] if i else best[:1, j]
                along = best[i, : j + 1] + best[i, rest_y] if j else best[i, :1]
                best[i, j] = max(best[i, j], _inner(across), _inner(along))
        return best

    def _around(self, length: int, width: int) -> float:
        """What the rest of the sheet around a block of this size is worth at most."""
        known = self.around.get((length, width))
        if known is None:
            known = 0.0
            for x in self.xs[1:]:
                if length + x > self.length:
                    break
                known = max(known, self._value(x, width) + self._around(length + x, width))
            for y in self.ys[1:]:
                if width + y > self.width:
                    break
                known = max(known, self._value(length, y) + self._around(length, width + y))
            # what is left over beyond the last sum may make the neighbours larger, not more valuable
            self.around[length, width] = known
        return known

    def _value(self, length: int, width: int) -> float:
        i = int(np.searchsorted(self.xs, length, side="right")) - 1
        j = int(np.searchsorted(self.ys, width, side="right")) - 1
        return float(self.filled[i, j])


def _inner(sums: np.ndarray) -> float:
    """Largest of the splits into two real pieces: the first and last leave nothing on one side."""
    return float(sums[1:-1].max()) if len(sums) > 2 else 0.0


def _sums(sizes: list[tuple[int, int]], most: int) -> list[int]:
    """All sums of sizes, each taken up to its count, that are no more than `most`."""
    found = {0}
    for size, count in sizes:
        fresh = found
        for _ in range(min(count, most // size if size else 0)):
            fresh = {s + size for s in fresh if s + size <= most} - found
            if not fresh:
                break
            found = found | fresh
    return sorted(found)


def _lays(block: _Block, x: int, y: int) -> list[tuple[int, Box, bool]]:
    """The parts of a block where they lie when its lower left corner is at (x, y)."""
    if block.part >= 0:
        return [(block.part, (x, y, x + block.length, y + block.width), block.turned)]
    if block.first is None or block.second is None:
        return []
    moved = (x + block.first.length, y) if block.axis == 0 else (x, y + block.first.width)
    return _lays(block.first, x, y) + _lays(block.second, *moved)
