"""Statements of places: one for each direction, measured along it."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.fields import Position
from plans.placing import SetBy
from plans.problems import Problem
from plans.sides import SIDE_AXIS, Axis, sides_of
from plans.source import KeyPath


def terms_along(reading: Reading, path: KeyPath, position: Position | None, axis: Axis) -> Iterator[Problem]:
    """A problem for each side in a place along `axis` that is measured another way."""
    for term in position.terms if position else ():
        if SIDE_AXIS[term.side] != axis:
            low, high = sides_of(axis)
            message = f"`{path[-1]}` is measured {axis}, and the {term.side} of {term.part} is not"
            yield reading.problem("wrong-direction", path, message, f"use its {low} or its {high}")


def said_of(where: SetBy, axis: Axis) -> list[str]:
    """The keys that settle a direction."""
    said = [str(side) for side in sides_of(axis) if getattr(where, side) is not None]
    return said + (["centred"] if axis in where.centred else [])


def said_once(reading: Reading, path: KeyPath, where: SetBy, axis: Axis) -> Iterator[Problem]:
    """A problem when a direction is settled twice. `path` is that of `where`."""
    said = said_of(where, axis)
    if len(said) > 1:
        message = f"{axis} is settled twice, by `{said[0]}` and by `{said[1]}`"
        hint = "keep one of them" + ("; to end a part at two places use `cut to`" if path[0] == "parts" else "")
        yield reading.problem("position-twice", (*path, said[1]), message, hint, key=True)
