"""The search for a layout on boards and sheets: many fillings, and the best mix of all boards ever filled.

Boards are filled again and again in changing orders of the parts. Every filled board goes into a pool, and a
small integer programme picks the cheapest boards of the pool that make all parts between them (set covering,
as Monaci & Toth 2006 do for bin packing). Effort is counted in boards filled, and chance is seeded.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from random import Random

from model.boards.covering import Column, cheapest_cover, prices_of
from model.boards.regions import FITS, Fit, Lay, Region, Shop, fill

ROUNDS = 5  # of filling, each followed by a pick from the pool
SEED = 1
POOL = 2000  # fullest boards to pick from
USED = 0.05  # a board the linear programme uses less is left alone


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
class _Search:
    """The state of one search. `effort` is what is left of it."""

    shop: Shop
    stocks: tuple[Stock, ...]
    demands: tuple[int, ...]
    effort: int
    chance: Random
    pool: dict[tuple[int, tuple[tuple[int, int], ...]], Filled] = field(default_factory=dict)
    prices: list[float] = field(default_factory=list)  # by the last linear programme
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


def best_boards(
    shop: Shop, demands: Sequence[int], stocks: Sequence[Stock], effort: int, good_enough: Callable[[float], bool]
) -> tuple[list[Filled], list[float]]:
    """The cheapest boards found that make all units, and prices of the units that may prove it.

    Units that fit nowhere are left out. A price is what one more of a unit would cost, in boards of cost 1.

    `good_enough` says of a cost that no layout can be cheaper: the search ends there.
    """
    search = _Search(shop, tuple(stocks), tuple(demands), effort, Random(SEED))
    search.worth = [float(unit.area) for unit in shop.units]
    best = min((_lay_all(search, demands, [], key, "slice", 0) for key in _plain_orders(shop)), key=search.cost)
    share = effort // ROUNDS
    for turn in range(ROUNDS):
        if good_enough(search.cost(best)[1]):
            break
        until = search.effort - share
        while search.effort > max(until, 0) and not good_enough(search.cost(best)[1]):
            fresh = _fresh(search) if search.chance.random() < 0.4 else _repacked(search, best)
            best = min(best, fresh, key=search.cost)
        best = min(best, _picked(search, best, last=turn == ROUNDS - 1), key=search.cost)
    return best, search.prices


def _plain_orders(shop: Shop) -> list[list[float]]:
    """Largest first by area, by longest side, by width, by length."""
    ways = [[shop.kinds[kind].ways[0] for kind in unit.kinds] for unit in shop.units]
    return [
        [float(unit.area) for unit in shop.units],
        [float(max(max(w[0], w[1]) for w in way)) for way in ways],
        [float(max(w[1] for w in way)) for way in ways],
        [float(max(w[0] for w in way)) for way in ways],
    ]


def _lay_all(
    search: _Search, demands: Sequence[int], kept: Sequence[Filled], key: Sequence[float], fit: Fit, start: int
) -> list[Filled]:
    """All units onto boards, the board that earns most for its cost next; `kept` boards are not to be used again."""
    order = sorted((u for u in range(len(demands)) if demands[u]), key=lambda u: (-key[u], u))
    left = list(demands)
    room = [None if s.limit is None else s.limit - sum(b.stock == i for b in kept) for i, s in enumerate(search.stocks)]
    boards = list(kept)
    while any(left[u] for u in order):
        found = [_filled(search, i, order, left, fit, start) for i, have in enumerate(room) if have is None or have > 0]
        best = max(found, key=lambda b: (b.area / search.stocks[b.stock].cost, -b.stock), default=None)
        if best is None or not best.taken:
            break
        boards.append(best)
        for unit, n in best.taken:
            left[unit] -= n
        have = room[best.stock]
        room[best.stock] = None if have is None else have - 1
        order = [u for u in order if left[u]]
    return boards


def _filled(search: _Search, stock: int, order: list[int], left: list[int], fit: Fit, start: int) -> Filled:
    search.effort -= 1
    starts = search.stocks[stock].starts
    taken, lays = fill(search.shop, starts[start % len(starts)], order, left, fit)
    area = sum(search.shop.units[unit].area * n for unit, n in taken.items())
    board = Filled(stock, tuple(sorted(taken.items())), tuple(lays), area)
    return search.pool.setdefault((stock, board.taken), board)


def _fresh(search: _Search) -> list[Filled]:
    """A whole new layout. Units that came to lie on badly filled boards count more the next time."""
    chance, units = search.chance, search.shop.units
    base = chance.choice([search.worth, search.worth, *_plain_orders(search.shop)])
    spread = chance.choice([0.05, 0.2, 0.5])
    key = [value * (1 + spread * chance.uniform(-1, 1)) for value in base]
    boards = _lay_all(search, search.demands, [], key, chance.choice(FITS), chance.randrange(2))
    full = max((board.area for board in boards), default=1)
    for board in boards:
        for unit, _ in board.taken:
            search.worth[unit] = 0.7 * search.worth[unit] + 0.3 * units[unit].area * full / board.area
    return boards


def _repacked(search: _Search, best: list[Filled]) -> list[Filled]:
    """The best layout with a few boards, the emptiest often among them, filled anew."""
    chance = search.chance
    many = min(len(best), chance.choice([2, 3, 3, 4, 5, 7]))
    chosen = set(chance.sample(range(len(best)), many))
    if chance.random() < 0.5:
        chosen.add(min(range(len(best)), key=lambda i: (best[i].area / search.stocks[best[i].stock].cost, i)))
    kept = [board for i, board in enumerate(best) if i not in chosen]
    demands = list(search.demands)
    for board in kept:
        for unit, n in board.taken:
            demands[unit] -= n
    base = chance.choice([search.worth, *_plain_orders(search.shop)])
    spread = chance.choice([0.1, 0.3, 0.6])
    key = [value * (1 + spread * chance.uniform(-1, 1)) for value in base]
    return _lay_all(search, demands, kept, key, chance.choice(FITS), chance.randrange(2))


def _picked(search: _Search, best: list[Filled], last: bool) -> list[Filled]:
    """The cheapest boards out of the pool; and the prices it sets are what units count from now on."""
    dense = sorted(search.pool.values(), key=lambda b: (-b.area / search.stocks[b.stock].cost, b.stock, b.taken))
    boards = [*best, *dense[:POOL]]
    columns = [Column(b.stock, dict(b.taken), search.stocks[b.stock].cost) for b in boards]
    limits = [stock.limit for stock in search.stocks]
    prices = prices_of(columns, search.demands, limits)
    search.prices = prices.units
    if max(prices.units, default=0.0) > 0:
        whole = sum(unit.area for unit in search.shop.units) / len(search.shop.units)
        search.worth = [whole * price + 0.01 * u.area for price, u in zip(prices.units, search.shop.units, strict=True)]
    dived = _dived(search, boards, prices.times)
    picked = cheapest_cover(columns, search.demands, limits, prices, search.cost(best)[1]) if last else []
    return min(best, dived, _no_surplus(search, [boards[i] for i in picked]), key=search.cost)


def _dived(search: _Search, boards: list[Filled], times: list[float]) -> list[Filled]:
    """The boards that the linear programme uses most, as long as they go together, and the rest laid anew."""
    left = list(search.demands)
    room = [10**9 if stock.limit is None else stock.limit for stock in search.stocks]
    kept = []
    for number in sorted((i for i, x in enumerate(times) if x > USED), key=lambda i: (-times[i], i)):
        board = boards[number]
        if room[board.stock] > 0 and all(n <= left[unit] for unit, n in board.taken):
            kept.append(board)
            room[board.stock] -= 1
            for unit, n in board.taken:
                left[unit] -= n
    return _lay_all(search, left, kept, search.worth, "tight", 0)


def _no_surplus(search: _Search, boards: list[Filled]) -> list[Filled]:
    """The boards without units made over demand, boards left empty dropped."""
    left = list(search.demands)
    result = []
    for board in boards:
        taken = {unit: min(n, left[unit]) for unit, n in board.taken}
        for unit, n in taken.items():
            left[unit] -= n
        if any(taken.values()):
            result.append(_reduced(search.shop, board, taken))
    return result


def _reduced(shop: Shop, board: Filled, taken: dict[int, int]) -> Filled:
    """A board with only so many of each unit; what is taken off leaves room."""
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
