"""Boards picked from the pool: by a linear programme, a dive after it, and a small integer programme at the end."""

from __future__ import annotations

from collections.abc import Sequence

from model.boards.covering import Column, Prices, cheapest_cover, prices_of
from model.boards.filling import Filled, Search, in_order, only
from model.boards.regions import FITS

POOL = 6000  # fullest boards that are priced
NEAR = 1000  # boards of least loss that a dive begins with
SURE = 0.9  # a board the linear programme uses as often is taken
FILLS = 60  # boards filled at each step of a dive
TRIES = 2  # times that a dive fills more boards at one step before it gives up
SAME = 1e-6


def picked(search: Search, best: list[Filled], last: bool) -> list[Filled]:
    """The cheapest boards out of the pool; and the prices it sets are what units count from now on."""
    dense = sorted(search.pool.values(), key=lambda b: (-b.area / search.stocks[b.stock].cost, b.stock, b.taken))
    boards = [*best, *dense[:POOL]]
    columns = _columns(search, boards)
    limits = search.limits([])
    prices = prices_of(columns, search.demands, limits)
    search.prices, search.priced = prices.units, prices.cost
    if max(prices.units, default=0.0) > 0:
        whole = sum(unit.area for unit in search.shop.units) / len(search.shop.units)
        search.worth = [whole * price + 0.01 * u.area for price, u in zip(prices.units, search.shop.units, strict=True)]
    least_loss = sorted(range(len(boards)), key=lambda i: (prices.reduced(columns[i]), i))
    best = min(best, _dived(search, [boards[i] for i in least_loss[:NEAR]], best), key=search.cost)
    if last and search.costs.rounded_up(prices.cost) < search.cost(best)[1] - SAME:
        chosen = cheapest_cover(columns, search.demands, limits, prices, search.cost(best)[1])
        best = min(best, _no_surplus(search, [boards[i] for i in chosen]), key=search.cost)
    return best


def _columns(search: Search, boards: Sequence[Filled]) -> list[Column]:
    return [Column(board.stock, dict(board.taken), search.stocks[board.stock].cost) for board in boards]


def _dived(search: Search, boards: list[Filled], best: list[Filled]) -> list[Filled]:
    """Board after board settled, the one the linear programme uses most first, and the rest priced anew each time.

    Boards are filled by the new prices before each, as a board that suits what is left is seldom in the pool. It
    ends, the rest laid in order of worth, where no cheaper layout can come of it.
    """
    kept: list[Filled] = []
    units = search.shop.units
    worth = list(search.worth)
    tries = 0
    while True:
        left, limits = search.still_wanted(kept), search.limits(kept)
        clipped = (only(search.shop, board, left) for board in boards if limits[board.stock] != 0)
        boards = list({(b.stock, b.taken): b for b in clipped if b.taken}.values())
        if not any(left) or not boards:
            break
        prices = prices_of(_columns(search, boards), left, limits)
        dear = search.costs.rounded_up(search.cost(kept)[1] + prices.cost) > search.cost(best)[1] - SAME
        if dear and tries == TRIES:
            break
        tries = tries + 1 if dear else 0
        worth = [price + 1e-9 * unit.area / units[0].area for price, unit in zip(prices.units, units, strict=True)]
        if not dear:
            kept += _settled(boards, prices, limits, left)
            left = search.still_wanted(kept)
        boards += _priced(search, left, search.limits(kept), worth)
    return search.lay_all(kept, worth, "tight", 0)


def _settled(boards: list[Filled], prices: Prices, limits: Sequence[int | None], left: Sequence[int]) -> list[Filled]:
    """The board used most, and all others that are nearly sure and go with it."""
    order = sorted(range(len(boards)), key=lambda i: (-prices.times[i], -boards[i].area, i))
    left, room = list(left), list(limits)
    settled: list[Filled] = []
    for number in order:
        board, have = boards[number], room[boards[number].stock]
        if settled and prices.times[number] < SURE:
            break
        if have != 0 and all(n <= left[unit] for unit, n in board.taken):
            settled.append(board)
            room[board.stock] = None if have is None else have - 1
            for unit, n in board.taken:
                left[unit] -= n
    return settled


def _priced(search: Search, left: Sequence[int], limits: Sequence[int | None], worth: Sequence[float]) -> list[Filled]:
    """Boards filled with what is dear, or dear for its size, each order a little changed by chance."""
    chance, units = search.chance, search.shop.units
    stocks = [i for i, have in enumerate(limits) if have != 0]
    found = []
    for _ in range(FILLS if stocks and any(left) else 0):
        power, spread = chance.choice([0.0, 0.0, 0.5, 1.0]), chance.choice([0.1, 0.3, 0.6])
        key = [w / u.area**power * (1 + spread * chance.uniform(-1, 1)) for w, u in zip(worth, units, strict=True)]
        stock = stocks[chance.randrange(len(stocks))]
        found.append(
            search.fill(stock, in_order(key, left), left, chance.choice(FITS), chance.randrange(search.starts))
        )
    return found


def _no_surplus(search: Search, boards: list[Filled]) -> list[Filled]:
    """The boards without units made over demand, boards left empty dropped."""
    left = list(search.demands)
    result = []
    for board in boards:
        board = only(search.shop, board, left)
        for unit, n in board.taken:
            left[unit] -= n
        if board.taken:
            result.append(board)
    return result
