"""Prices: those of the design and those of the house file are added up, so they are in one currency."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.problems import Problem


def check_prices(reading: Reading) -> Iterator[Problem]:
    """The currency of the design against that of its house file."""
    spec = reading.spec
    if spec is None or spec.prices is None or spec.house is None or spec.house.prices is None:
        return
    ours, house = spec.prices.currency, spec.house.prices.currency
    if ours != house:
        message = f"these prices are in {ours}, and those of the house in {house}"
        yield reading.problem("wrong-value", ("prices", "currency"), message, "give both in one currency")
