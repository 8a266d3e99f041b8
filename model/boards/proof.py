"""Costs that no layout can go under, and so how near one is to the best there can be."""

from __future__ import annotations

from collections.abc import Sequence

from model.boards.bounds import fewest_boards
from model.boards.costs import Costs
from model.boards.pair_bound import paired_bound
from model.boards.pieces import Board
from model.boards.task import Task
from model.boards.value import Valued, manageable, most_valuable

PROOF = 800  # blocks joined for a proof

Part = tuple[int, int, int, bool]  # length, width, count, may be turned


def least_cost(task: Task, boards: Sequence[Board], costs: Costs) -> float:
    """From dual-feasible functions for boards all alike, else from sheer area."""
    sizes = _sizes(task)
    parts = _parts(task, sizes)
    if len(boards) == 1:
        return costs.each[0] * fewest_boards(parts, sizes[0])
    area = sum(length * width * count for length, width, count, _ in parts)
    least = 0.0
    for cost, board, (length, width) in sorted(
        zip(costs.each, boards, sizes, strict=True), key=lambda row: row[0] / max(1, row[2][0] * row[2][1])
    ):
        have = board.available
        used = area if have is None else min(area, have * length * width)
        least += cost * used / max(1, length * width)
        area -= used
    return least


def fewest_to_buy(task: Task, boards: Sequence[Board], costs: Costs) -> int:
    """How many boards have to be bought at the least, were all as long and as wide as the largest."""
    sizes = _sizes(task)
    whole = (max(length for length, _ in sizes), max(width for _, width in sizes))
    there = sum(board.available or 0 for board, counts in zip(boards, costs.counted, strict=True) if not counts)
    return max(0, fewest_boards(_parts(task, sizes), whole) - there)


def paired_cost(task: Task, costs: Costs) -> float:
    """By weights worked out for these very parts; 0 where boards differ, or parts may be turned."""
    if len(task.faces) > 1 or any(len(kind.ways) > 1 for kind in task.shop.kinds):
        return 0.0
    (size,) = sizes = _sizes(task)
    return costs.each[0] * paired_bound([part[:3] for part in _parts(task, sizes)], size)


def priced_cost(task: Task, costs: Costs, prices: Sequence[float]) -> float:
    """By prices of the units: what all parts are worth, where no board can hold more than it costs.

    A board cannot hold more than its most valuable filling, in however many stages; the prices are lowered until that
    is no more than its cost (Farley 1990). Of boards that there are only so many of, what one may hold over its cost
    is taken off again, for each. Boards are taken as free of defects, and parts of one unit as free to part: both can
    only lower the bound.
    """
    values = [0.0] * len(task.wanted)
    for unit, price in zip(task.shop.units, prices, strict=True):
        for kind in unit.kinds:
            values[kind] = price * task.shop.kinds[kind].area / unit.area
    parts = [
        Valued(kind.ways[0][0], kind.ways[0][1], value, part.count, len(kind.ways) > 1)
        for kind, value, part in zip(task.shop.kinds, values, task.wanted, strict=True)
    ]
    sizes = _sizes(task)
    if not all(manageable(parts, *size) for size in sizes):
        return 0.0
    tops = [most_valuable(parts, *size, effort=PROOF).top for size in sizes]
    rows = list(zip(tops, costs.each, (stock.limit for stock in task.stocks), strict=True))
    share = min((cost / top for top, cost, limit in rows if limit is None and top > 0), default=1.0)
    over = sum(limit * max(0.0, share * top - cost) for top, cost, limit in rows if limit is not None)
    return share * sum(part.value * part.most for part in parts) - over


def _sizes(task: Task) -> list[tuple[int, int]]:
    return [(face.clear[2] - face.clear[0], face.clear[3] - face.clear[1]) for face in task.faces]


def _parts(task: Task, sizes: Sequence[tuple[int, int]]) -> list[Part]:
    """The parts that go on any of the boards."""
    parts = [
        (kind.ways[0][0], kind.ways[0][1], part.count, len(kind.ways) > 1)
        for kind, part in zip(task.shop.kinds, task.wanted, strict=True)
    ]
    return [part for part in parts if any(_fits(part, size) for size in sizes)]


def _fits(part: Part, size: tuple[int, int]) -> bool:
    length, width, _, turn = part
    return (length <= size[0] and width <= size[1]) or (turn and width <= size[0] and length <= size[1])
