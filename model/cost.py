"""A cost estimate from the maker's own prices: the boards and sheets of the layouts, and whatever else is priced."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, ROUND_UP, Decimal
from functools import partial

from model.buying import Purchase, purchases
from model.piece import Piece
from plans.library import rough_stock, sheet
from plans.prices import OtherPrice, Prices, WoodPrice

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


Look = Callable[[Prices], CostRow | None]  # the line for one thing, by a table; None where it is not in it


@dataclass(frozen=True)
class Estimate:
    """The lines, the days their prices are of, and what is bought by the layouts but has no price."""

    currency: str
    dates: tuple[date, ...]
    rows: tuple[CostRow, ...]
    unpriced: tuple[str, ...]

    @property
    def total(self) -> Decimal:
        """The sum of the lines as printed."""
        return sum((row.cost for row in self.rows), Decimal(0))


def estimate(piece: Piece) -> Estimate | None:
    """What the piece costs by the prices of the design, then by those of the house; None where neither has any."""
    own, house = piece.design.spec.prices, piece.design.spec.house
    tables = [table for table in (own, house.prices if house else None) if table is not None]
    if not tables:
        return None
    rows: list[CostRow] = []
    dates: set[date] = set()
    unpriced = []
    for name, look in _wanted(piece, own):
        found = [(row, table.date) for table in tables if (row := look(table)) is not None]
        if found:
            rows.append(found[0][0])
            dates.add(found[0][1])
        else:
            unpriced.append(name)
    if not rows and own is None:
        return None
    return Estimate(tables[0].currency, tuple(sorted(dates)) or (tables[0].date,), tuple(rows), tuple(unpriced))


def _wanted(piece: Piece, own: Prices | None) -> list[tuple[str, Look]]:
    """What is to be priced, and how a line for it is found in a table: the boards to buy, then what the design adds."""
    looks: list[tuple[str, Look]] = []
    for purchase in (one for one in purchases(piece) if one.count):
        row = _sheet_row if purchase.plan.of == "sheet" else _wood_row
        looks.append((_name(purchase), partial(row, purchase=purchase)))
    return looks + [(one.item, partial(_other_row, wanted=one)) for one in (own.other if own else ())]


def _name(purchase: Purchase) -> str:
    return f"{purchase.plan.wood}, {purchase.plan.stock}"


def _money(price: float) -> Decimal:
    return Decimal(str(price))


def _sheet_row(prices: Prices, purchase: Purchase) -> CostRow | None:
    for stock in _names(purchase):
        for one in prices.sheets:
            if (_plain(one.sheet), _plain(one.stock)) == (_plain(purchase.plan.wood), stock):
                return CostRow(_name(purchase), Decimal(purchase.count), "sheet", _money(one.each))
    return None


def _names(purchase: Purchase) -> list[str]:
    """What its stock is called, then what one asks for in its place in the other units: a price may be of either."""
    plan = purchase.plan
    known = sheet(plan.wood, plan.stock) if plan.of == "sheet" else rough_stock(plan.stock)
    return [_plain(plan.stock), *([_plain(known.counterpart)] if known else [])]


def _other_row(prices: Prices, wanted: OtherPrice) -> CostRow | None:
    """At the price the design gives itself, or that of the table."""
    for one in (wanted, *prices.other):
        if one.each is not None and _plain(one.item) == _plain(wanted.item):
            return CostRow(wanted.item, Decimal(wanted.count), "", _money(one.each))
    return None


def _wood_row(prices: Prices, purchase: Purchase) -> CostRow | None:
    for stock in _names(purchase):
        for one in prices.wood:
            if (_plain(one.wood), _plain(one.stock)) == (_plain(purchase.plan.wood), stock):
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
