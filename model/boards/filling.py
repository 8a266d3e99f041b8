"""Boards filled with units in a given order, each kept in a pool: what every step of the search is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from model.boards.costs import Costs
from model.boards.regions import Fit, Lay, Region, Shop, fill

SAME = 1e-6
MANY = 10  # parts on one board


@dataclass(frozen=True)
class Stock:
    """Boards of one size: the ways cutting may begin, as free regions; cost; how many there are."""

    starts: tuple[tuple[Region, ...], ...]
    cost: float
    limit: int | None


@dataclass(frozen=True)
class Filled:
    """One board filled: which stock, how many of each unit, where the parts lie, share of its cost they earn."""

    stock: int
    taken: tuple[tuple[int, int], ...]
    lays: tuple[Lay, ...]
    area: int


@dataclass
class Search:
    """The state of one search. `effort` is what is left of it, in boards filled, one of many parts counted as more."""

    shop: Shop
    stocks: tuple[Stock, ...]
    demands: tuple[int, ...]
    costs: Costs
    effort: int
    chance: Random
    best: list[Filled] = field(default_factory=list)
    pool: dict[tuple[int, tuple[tuple[int, int], ...]], Filled] = field(default_factory=dict)
    prices: list[float] = field(default_factory=list)  # by the last linear programme over all parts
    priced: float = 0.0  # what all parts cost by it
    worth: list[float] = field(default_factory=list)  # what a unit counts in the order, learnt from board to board

    def cost(self, boards: Sequence[Filled]) -> tuple[int, float, float]:
        """Units not made, cost, and how evenly full the boards are (less is better in all)."""
        made = [0] * len(self.demands)
        for board in boards:
            for unit, n in board.taken:
                made[unit] += n
        short = sum(self.demands) - sum(made)
        cost = sum(self.stocks[board.stock].cost for board in boards)
        whole = max((unit.area for unit in self.shop.units), default=1) or 1
        return short, round(cost, 9), -sum((board.area / whole) ** 2 for board in boards)

    def is_enough(self, least: float) -> bool:
        """Whether the best layout so far costs no more than all must, given a cost that none can go under."""
        return self.cost(self.best)[1] <= self.costs.rounded_up(least) + SAME

    @property
    def starts(self) -> int:
        """The most ways in which the cutting of any board may begin."""
        return max((len(stock.starts) for stock in self.stocks), default=1)

    def fill(self, stock: int, order: Sequence[int], left: Sequence[int], fit: Fit, start: int) -> Filled:
        """A board filled with units in that order, cutting begun in one of the ways there are."""
        starts = self.stocks[stock].starts
        taken, lays = fill(self.shop, starts[start % len(starts)], order, left, fit)
        self.effort -= 1 + len(lays) // MANY
        area = sum(self.shop.units[unit].area * n for unit, n in taken.items())
        board = Filled(stock, tuple(sorted(taken.items())), tuple(lays), area)
        return self.pool.setdefault((stock, board.taken), board)

    def limits(self, kept: Sequence[Filled]) -> list[int | None]:
        """How many of each stock there are beside those used already; None for as many as it takes."""
        return [
            None if stock.limit is None else stock.limit - sum(board.stock == i for board in kept)
            for i, stock in enumerate(self.stocks)
        ]

    def still_wanted(self, kept: Sequence[Filled]) -> list[int]:
        """How many of each unit those boards leave to be made."""
        left = list(self.demands)
        for board in kept:
            for unit, n in board.taken:
                left[unit] -= n
        return left

    def lay_all(self, kept: Sequence[Filled], key: Sequence[float], fit: Fit, start: int) -> list[Filled]:
        """The `kept` boards and all other units onto boards, the board that earns most for its cost next."""
        left, room = self.still_wanted(kept), self.limits(kept)
        order = in_order(key, left)
        boards = list(kept)
        while any(left[u] for u in order):
            found = [self.fill(i, order, left, fit, start) for i, have in enumerate(room) if have is None or have > 0]
            best = max(found, key=lambda b: (b.area / self.stocks[b.stock].cost, -b.stock), default=None)
            if best is None or not best.taken:
                break
            boards.append(best)
            for unit, n in best.taken:
                left[unit] -= n
            have = room[best.stock]
            room[best.stock] = None if have is None else have - 1
            order = [u for u in order if left[u]]
        return boards


def in_order(key: Sequence[float], left: Sequence[int]) -> list[int]:
    """The units still wanted, what counts most first."""
    return sorted((u for u, wanted in enumerate(left) if wanted > 0), key=lambda u: (-key[u], u))


def plain_orders(shop: Shop) -> list[list[float]]:
    """Largest first by area, by longest side, by width, by length."""
    ways = [[shop.kinds[kind].ways[0] for kind in unit.kinds] for unit in shop.units]
    return [
        [float(unit.area) for unit in shop.units],
        [float(max(max(w[0], w[1]) for w in way)) for way in ways],
        [float(max(w[1] for w in way)) for way in ways],
        [float(max(w[0] for w in way)) for way in ways],
    ]


def only(shop: Shop, board: Filled, left: Sequence[int]) -> Filled:
    """A board with no more of each unit than is still wanted; what is taken off leaves room."""
    taken = {unit: min(n, left[unit]) for unit, n in board.taken}
    if all(taken[unit] == n for unit, n in board.taken):
        return board
    allowed: dict[int, int] = {}
    for unit, n in taken.items():
        for kind in shop.units[unit].kinds:
            allowed[kind] = allowed.get(kind, 0) + n
    lays = []
    for lay in board.lays:
        if allowed.get(lay.kind, 0):
            allowed[lay.kind] -= 1
            lays.append(lay)
    area = sum(shop.units[unit].area * n for unit, n in taken.items())
    return Filled(board.stock, tuple((unit, n) for unit, n in sorted(taken.items()) if n), tuple(lays), area)
