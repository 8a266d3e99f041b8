"""Reading the tables that lie beside this file."""

import csv
from importlib.resources import files


def rows(name: str) -> list[dict[str, str]]:
    """The rows of `name`.csv, each a dict from column to text."""
    text = files("plans.library").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
