"""A cost estimate from the maker's own prices: the boards and sheets of the layouts, and whatever else is priced."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, ROUND_UP, Decimal

from model.buying import Purchase, purchases
from model.piece import Piece
from plans.prices import Prices, WoodPrice

CENT = Decimal("0.01")
STEPS = {"board foot": Decimal("0.1"), "cubic metre": Decimal("0.0001"), "board": Decimal(1), "sheet": Decimal(1)}


@dataclass(frozen=True)
class CostRow:
    """One line: `amount` of what, in which `unit` (empty where the thing itself is counted), at `price` each."""

    what: str
    amount: Decimal
    unit: str
    price: Decimal

    @property
    def cost(self) -> Decimal:
        """Amount times price, to the cent; a half goes up."""
        return (self.amount * self.price).quantize(CENT, ROUND_HALF_UP)


@dataclass(frozen=True)
class Estimate:
    """The lines, and what is bought by the layouts but has no price."""

    prices: Prices
    rows: tuple[CostRow, ...]
    unpriced: tuple[str, ...]

    @property
    def total(self) -> Decimal:
        """The sum of the lines as printed."""
        return sum((row.cost for row in self.rows), Decimal(0))


def estimate(piece: Piece) -> Estimate | None:
    """What the piece costs by the prices of the design; None where it gives none."""
    prices = piece.design.spec.prices
    if prices is None:
        return None
    rows: list[CostRow] = []
    unpriced = []
    for purchase in (one for one in purchases(piece) if one.count):
        row = _sheet_row(prices, purchase) if purchase.plan.of == "sheet" else _wood_row(prices, purchase)
        if row is None:
            unpriced.append(_name(purchase))
        else:
            rows.append(row)
    rows += [CostRow(one.item, Decimal(one.count), "", _money(one.each)) for one in prices.other]
    return Estimate(prices, tuple(rows), tuple(unpriced))


def _name(purchase: Purchase) -> str:
    return f"{purchase.plan.wood}, {purchase.plan.stock}"


def _money(price: float) -> Decimal:
    return Decimal(str(price))


def _sheet_row(prices: Prices, purchase: Purchase) -> CostRow | None:
    plan = purchase.plan
    for one in prices.sheets:
        if (_plain(one.sheet), _plain(one.stock)) == (_plain(plan.wood), _plain(plan.stock)):
            return CostRow(_name(purchase), Decimal(purchase.count), "sheet", _money(one.each))
    return None


def _wood_row(prices: Prices, purchase: Purchase) -> CostRow | None:
    plan = purchase.plan
    for one in prices.wood:
        if (_plain(one.wood), _plain(one.stock)) == (_plain(plan.wood), _plain(plan.stock)):
            unit, price, amount = _measured(one, purchase)
            return CostRow(_name(purchase), amount.quantize(STEPS[unit], ROUND_UP), unit, price)
    return None


def _measured(price: WoodPrice, purchase: Purchase) -> tuple[str, Decimal, Decimal]:
    """The unit of a price, the price, and how many such units the boards come to (float noise rounded off)."""
    if price.per_board_foot is not None:
        return "board foot", _money(price.per_board_foot), Decimal(str(round(purchase.board_feet or 0.0, 6)))
    if price.per_cubic_metre is not None:
        return "cubic metre", _money(price.per_cubic_metre), Decimal(str(round(purchase.cubic_metres or 0.0, 9)))
    assert price.per_board is not None
    return "board", _money(price.per_board), Decimal(purchase.count)


def _plain(name: str) -> str:
    return "".join(name.lower().split())
