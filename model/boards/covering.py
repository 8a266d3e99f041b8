"""Picking boards from a pool: the cheapest that make all parts between them (set covering)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

SHORT = 50.0  # cost of a unit that is not made, in boards of cost 1
NODES = 5
MOST = 100  # columns of one integer programme
SAME = 1e-7


@dataclass(frozen=True)
class Column:
    """A filled board: its stock, how many of each unit, its cost."""

    stock: int
    counts: dict[int, int]
    cost: float


@dataclass(frozen=True)
class Prices:
    """What the linear programme pays for each unit and each board, and what all costs."""

    cost: float
    units: list[float]
    stocks: list[float]
    times: list[float]  # use of each column

    def reduced(self, column: Column) -> float:
        """What a column costs over what its units are worth."""
        worth = sum(self.units[unit] * n for unit, n in column.counts.items())
        return column.cost - self.stocks[column.stock] - worth


def _matrix(columns: Sequence[Column], units: int, limits: Sequence[int | None]) -> sparse.csr_matrix:
    """A of `A x <= b`: units made (negative), boards used, and a last column for each unit not made."""
    rows, cols, values = [], [], []
    for number, column in enumerate(columns):
        for unit, n in column.counts.items():
            rows.append(unit)
            cols.append(number)
            values.append(-n)
        if limits[column.stock] is not None:
            rows.append(units + column.stock)
            cols.append(number)
            values.append(1)
    for unit in range(units):
        rows.append(unit)
        cols.append(len(columns) + unit)
        values.append(-1)
    return sparse.csr_matrix((values, (rows, cols)), shape=(units + len(limits), len(columns) + units), dtype=float)


def _right_side(demands: Sequence[int], limits: Sequence[int | None]) -> np.ndarray:
    return np.array([-d for d in demands] + [0 if limit is None else limit for limit in limits], dtype=float)


def prices_of(columns: Sequence[Column], demands: Sequence[int], limits: Sequence[int | None]) -> Prices:
    """The linear programme over all columns."""
    costs = [column.cost for column in columns] + [SHORT] * len(demands)
    found = linprog(
        costs, A_ub=_matrix(columns, len(demands), limits), b_ub=_right_side(demands, limits), method="highs-ds"
    )
    marginals = found.ineqlin.marginals
    units = np.maximum(-marginals[: len(demands)], 0)
    stocks = np.minimum(marginals[len(demands) :], 0)
    return Prices(float(found.fun), units.tolist(), stocks.tolist(), found.x[: len(columns)].tolist())


def cheapest_cover(
    columns: Sequence[Column], demands: Sequence[int], limits: Sequence[int | None], prices: Prices, cost: float
) -> list[int]:
    """Numbers of the columns of a cover cheaper than `cost` (a column may come twice); empty if none is found."""
    gap = cost - prices.cost
    reduced = [(prices.reduced(column), number) for number, column in enumerate(columns)]
    kept = [number for excess, number in sorted(reduced) if excess <= gap + SAME][:MOST]
    chosen = [columns[number] for number in kept]
    found = milp(
        [column.cost for column in chosen] + [SHORT] * len(demands),
        constraints=LinearConstraint(_matrix(chosen, len(demands), limits), -np.inf, _right_side(demands, limits)),
        integrality=np.ones(len(chosen) + len(demands)),
        bounds=Bounds(0, np.inf),
        options={"node_limit": NODES, "mip_rel_gap": 0.0},
    )
    if found.x is None or found.fun > cost - SAME:
        return []
    return [number for number, times in zip(kept, found.x, strict=False) for _ in range(round(times))]
