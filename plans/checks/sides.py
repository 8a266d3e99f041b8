"""Sides, ends and directions that something asks for, and whether the part has them there."""

from collections import Counter
from collections.abc import Iterable, Iterator

from plans.checks.reading import Reading
from plans.problems import Problem
from plans.sides import AXES, SIDE_AXIS, SIDES, Axis, Side
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def long_sides(reading: Reading, part: PartSpec, path: KeyPath, sides: Iterable[Side]) -> Iterator[Problem]:
    """A problem for each of `sides` that is an end of the part."""
    for side in sides:
        if SIDE_AXIS[side] == part.runs:
            yield wrong(reading, path, side, "an end", [s for s in SIDES if SIDE_AXIS[s] != part.runs], part)


def an_end(reading: Reading, part: PartSpec, path: KeyPath, side: Side) -> Iterator[Problem]:
    """A problem when `side` is not an end of the part."""
    if SIDE_AXIS[side] != part.runs:
        yield wrong(reading, path, side, "no end", [s for s in SIDES if SIDE_AXIS[s] == part.runs], part)


def wrong(reading: Reading, path: KeyPath, side: Side, what: str, instead: list[Side], part: PartSpec) -> Problem:
    """A side that is `what` on this part, and the sides that would do instead."""
    message = f"{side} is {what} of this part, which runs {part.runs}"
    return reading.problem("wrong-side", path, message, f"use {listed(instead)}")


def one_a_direction(reading: Reading, path: KeyPath, sides: Iterable[Side]) -> Iterator[Problem]:
    """A problem when two of `sides` lie along the same direction."""
    counted: Counter[Axis] = Counter(SIDE_AXIS[side] for side in sides)
    for axis, number in counted.items():
        if number > 1:
            yield reading.problem("wrong-side", path, f"two sides are named {axis}", "name one of the two")


def placed_across(
    reading: Reading, path: KeyPath, at: Iterable[Side], side: Side, what: str, *, not_along: Axis | None = None
) -> Iterator[Problem]:
    """A problem for each side that cannot place `what`, let into `side`, and for two of one direction."""
    sides = list(at)
    across = [axis for axis in AXES if axis not in (SIDE_AXIS[side], not_along)]
    for other in sides:
        if SIDE_AXIS[other] not in across:
            message = f"a {what} in the {side} cannot be placed from the {other}"
            instead = [s for s in SIDES if SIDE_AXIS[s] in across]
            yield reading.problem("wrong-side", (*path, other), message, f"use {listed(instead)}", key=True)
    yield from one_a_direction(reading, path, sides)


def stops_at_ends(reading: Reading, path: KeyPath, stop: Iterable[Side], along: Axis) -> Iterator[Problem]:
    """A problem for each of `stop` at which something that runs `along` does not end."""
    for side in stop:
        if SIDE_AXIS[side] != along:
            instead = [s for s in SIDES if SIDE_AXIS[s] == along]
            message = f"it runs {along}, and does not end at the {side}"
            yield reading.problem("wrong-side", (*path, side), message, f"use {listed(instead)}", key=True)
