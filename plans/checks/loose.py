"""Dowels, biscuits and loose tenons: their depth on either side, their thickness and their row."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.joints import Biscuit, Dowel, LooseTenon
from plans.library import biscuit_size, biscuit_sizes
from plans.problems import Problem
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def check_loose(reading: Reading, path: KeyPath, joint: Dowel | LooseTenon, part: PartSpec) -> Iterator[Problem]:
    """Something of the loose piece in each part, and a piece thinner than the part."""
    if joint.deep is not None and joint.deep >= joint.long:
        message = f"it is {reading.shown(joint.long)} long, and {reading.shown(joint.deep)} of it in {joint.into}"
        yield reading.problem("wrong-size", (*path, "deep"), message, f"leave some of it for {joint.of}")
    key, size = ("diameter", joint.diameter) if isinstance(joint, Dowel) else ("thick", joint.thick)
    if size >= part.thickness_at_most:
        message = f"{joint.of} is {reading.shown(part.thickness_at_most)} thick, and it is {reading.shown(size)}"
        yield reading.problem("wrong-size", (*path, key), message, "a third to a half of the thickness is usual")
    yield from _row(reading, path, joint)


def check_biscuit(reading: Reading, path: KeyPath, joint: Biscuit, part: PartSpec) -> Iterator[Problem]:
    """A size of the table."""
    if biscuit_size(joint.size) is None:
        message = f"there is no biscuit of size '{joint.size}' in the table"
        hint = f"there are {listed(one.size for one in biscuit_sizes())}"
        yield reading.problem("unknown-size", (*path, "size"), message, hint)
    yield from _row(reading, path, joint)


def _row(reading: Reading, path: KeyPath, joint: Dowel | LooseTenon | Biscuit) -> Iterator[Problem]:
    if joint.from_ends is not None and joint.per_place == 1:
        message = "a single one stands in the middle, and `from ends` is said"
        yield reading.problem("wrong-value", (*path, "from ends"), message, "say `per place`, or take it out", key=True)
