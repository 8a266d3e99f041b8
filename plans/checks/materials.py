"""Woods and rough stock that the tables know."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.library import all_species, rough_stock, rough_stocks, species
from plans.problems import Problem
from plans.suggest import closest, listed


def check_materials(reading: Reading) -> Iterator[Problem]:
    """The wood and the stock of every part.

    A wood that is nearly, or only the end of, a name of the table is an error; one that is like none is the maker's own
    business, and a warning says what cannot be worked out for it.
    """
    for name, part in reading.parts.items():
        if species(part.wood) is None:
            yield _unknown_wood(reading, name, part.wood)
        if part.stock is not None and rough_stock(part.stock) is None:
            hint = f"write {listed(stock.name for stock in rough_stocks())}"
            yield reading.problem(
                "unknown-stock", ("parts", name, "stock"), f"'{part.stock}' is no rough thickness of the table", hint
            )


def _unknown_wood(reading: Reading, name: str, wood: str) -> Problem:
    path = ("parts", name, "wood")
    several = [known.name for known in all_species() if wood.lower() in known.name.lower()]
    if several:
        return reading.problem("unknown-wood", path, f"'{wood}' is not a whole name", f"write {listed(several)}")
    near = closest(wood, (known.name for known in all_species()))
    if near:
        return reading.problem("unknown-wood", path, f"no wood is called '{wood}'", f"did you mean '{near}'?")
    message = f"'{wood}' is not in the table of woods; its weight and movement will not be worked out"
    hint = f"the table has {listed(known.name for known in all_species())}"
    return reading.problem("unknown-wood", path, message, hint, severity="warning")
