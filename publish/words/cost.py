"""The cost estimate in words: amounts, prices, and how far it can be relied on."""

from __future__ import annotations

from decimal import Decimal

from model.cost import CostRow, Estimate
from publish.words.names import listed, plural


def money(currency: str, amount: Decimal) -> str:
    """`$12.50`, `12.50 EUR`: a sign stands before the amount, a word after it."""
    figures = f"{amount:,.2f}"
    return f"{figures} {currency}" if currency[0].isalpha() else f"{currency}{figures}"


def amount_words(row: CostRow) -> str:
    """`16 board feet`, `2 sheets`, `1`."""
    figures = f"{row.amount.normalize():f}"
    unit = {"board foot": "board feet"}.get(row.unit) or (plural(row.unit) if row.unit else "")
    return f"{figures} {row.unit if row.amount == 1 else unit}".strip()


def estimate_note(estimate: Estimate) -> str:
    """When the prices were taken, and what they leave out."""
    dates = listed(f"{date.day} {date:%B %Y}" for date in estimate.dates)
    text = (
        f"Prices of {dates}, as the maker of this plan paid or was asked; taxes and carriage are not "
        "counted. Wood is counted by the boards of the layouts. Ask for prices of your own before you buy."
    )
    return f"{text} Not priced: {listed(estimate.unpriced)}." if estimate.unpriced else text
