"""What the words of a callout are made of."""

from __future__ import annotations

from dataclasses import dataclass

from model.piece import Value


@dataclass(frozen=True)
class Said:
    """The lines of a callout; `each` is how many things one callout stands for."""

    lines: tuple[str, ...]
    each: int = 1


def mm(values: dict[str, Value], name: str) -> float:
    """A value that is a number: a length in mm, an angle in degrees, a count."""
    value = values[name]
    assert isinstance(value, int | float)
    return float(value)
