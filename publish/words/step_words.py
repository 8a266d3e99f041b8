"""What the words of a step are made of."""

from __future__ import annotations

from dataclasses import dataclass

from model.piece import Feature, Item, Value
from publish.edition import Edition


@dataclass(frozen=True)
class StepWords:
    """A step: its title, a caution that comes first, and its sentences."""

    title: str
    text: tuple[str, ...]
    caution: str = ""


def features(edition: Edition, item: Item, *what: str) -> list[Feature]:
    """What was made on a part by the operations named."""
    part = edition.piece.parts[item.shown]
    return [f for f in part.features if f.operation is not None and f.operation.name in what]


def mm(values: dict[str, Value], name: str) -> float:
    """A value that is a number: a length in mm, an angle in degrees, a count."""
    value = values[name]
    assert isinstance(value, int | float)
    return float(value)
