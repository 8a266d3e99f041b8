"""The search for a layout on boards and sheets: many fillings, and the best mix of all boards ever filled.

Boards are filled again and again in changing orders of the parts. Every filled board goes into a pool, and a
linear programme, a dive and a small integer programme pick the cheapest boards that make all parts between them
(set covering, as Monaci & Toth 2006 do for bin packing). Effort is counted in boards filled, and chance is seeded.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from model.boards.costs import Costs
from model.boards.filling import Filled, Search, Stock, plain_orders
from model.boards.picking import picked
from model.boards.regions import FITS, Shop

ROUNDS = 5  # of filling, each followed by a pick from the pool
SEED = 1


def begun(shop: Shop, demands: Sequence[int], stocks: Sequence[Stock], effort: int, costs: Costs) -> Search:
    """A search that has laid all parts in a few plain orders."""
    search = Search(shop, tuple(stocks), tuple(demands), costs, effort, Random(SEED))
    search.worth = [float(unit.area) for unit in shop.units]
    starts = range(search.starts)
    plain = (search.lay_all([], key, "slice", start) for key in plain_orders(shop) for start in starts)
    search.best = min(plain, key=search.cost)
    return search


def improved(search: Search, least: float) -> None:
    """Spend the effort of a search; a layout that costs `least`, which none can go under, ends it.

    Units that fit nowhere are left out. The prices found are what one more of a unit would cost, in boards of cost 1.
    """
    share = search.effort // ROUNDS
    for turn in reversed(range(ROUNDS)):
        if search.is_enough(least):
            break
        while search.effort > turn * share and not search.is_enough(least):
            fresh = _fresh(search) if search.chance.random() < 0.4 else _repacked(search, search.best)
            search.best = min(search.best, fresh, key=search.cost)
        search.best = min(search.best, picked(search, search.best, last=turn == 0), key=search.cost)


def _fresh(search: Search) -> list[Filled]:
    """A whole new layout. Units that came to lie on badly filled boards count more the next time."""
    chance, units = search.chance, search.shop.units
    base = chance.choice([search.worth, search.worth, *plain_orders(search.shop)])
    spread = chance.choice([0.05, 0.2, 0.5])
    key = [value * (1 + spread * chance.uniform(-1, 1)) for value in base]
    boards = search.lay_all([], key, chance.choice(FITS), chance.randrange(search.starts))
    full = max((board.area for board in boards), default=1)
    for board in boards:
        for unit, _ in board.taken:
            search.worth[unit] = 0.7 * search.worth[unit] + 0.3 * units[unit].area * full / board.area
    return boards


def _repacked(search: Search, best: list[Filled]) -> list[Filled]:
    """The best layout with a few boards, the emptiest often among them, filled anew."""
    chance = search.chance
    many = min(len(best), chance.choice([2, 3, 3, 4, 5, 7]))
    chosen = set(chance.sample(range(len(best)), many))
    if chance.random() < 0.5:
        chosen.add(min(range(len(best)), key=lambda i: (best[i].area / search.stocks[best[i].stock].cost, i)))
    kept = [board for i, board in enumerate(best) if i not in chosen]
    base = chance.choice([search.worth, *plain_orders(search.shop)])
    spread = chance.choice([0.1, 0.3, 0.6])
    key = [value * (1 + spread * chance.uniform(-1, 1)) for value in base]
    return search.lay_all(kept, key, chance.choice(FITS), chance.randrange(search.starts))
