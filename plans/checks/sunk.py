"""What is let into a part: sides that can take it, and sizes that say one thing."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.reading import Reading
from plans.checks.sides import long_sides, placed_across, stops_at_ends
from plans.problems import Problem
from plans.shaping import Groove, HandHold, Rabbet, Recess, Slot
from plans.sides import SIDE_AXIS, SIDES, third_axis
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def _groove(reading: Reading, part: PartSpec, path: KeyPath, groove: Groove) -> Iterator[Problem]:
    wrong = list(long_sides(reading, part, (*path, "side"), [groove.side]))
    yield from wrong
    if not wrong:
        yield from placed_across(
            reading, (*path, "at"), groove.at, groove.side, "groove along the grain", not_along=part.runs
        )
    yield from stops_at_ends(reading, (*path, "stop"), groove.stop, part.runs)


def _rabbet(reading: Reading, part: PartSpec, path: KeyPath, rabbet: Rabbet) -> Iterator[Problem]:
    wrong = list(long_sides(reading, part, (*path, "side"), [rabbet.side]))
    yield from wrong
    if SIDE_AXIS[rabbet.side] == SIDE_AXIS[rabbet.edge]:
        message = f"the {rabbet.side} and the {rabbet.edge} do not meet at an edge"
        others = [s for s in SIDES if SIDE_AXIS[s] != SIDE_AXIS[rabbet.side]]
        yield reading.problem("wrong-side", (*path, "edge"), message, f"use {listed(others)}")
    elif not wrong:
        along = third_axis(SIDE_AXIS[rabbet.side], SIDE_AXIS[rabbet.edge])
        yield from stops_at_ends(reading, (*path, "stop"), rabbet.stop, along)


def _slot(reading: Reading, part: PartSpec, path: KeyPath, slot: Slot | HandHold) -> Iterator[Problem]:
    yield from placed_across(reading, (*path, "at"), slot.at, slot.side, "slot")
    if SIDE_AXIS[slot.side] == (slot.along or part.runs):
        message = f"a slot in the {slot.side} cannot be long {slot.along or part.runs}"
        hint = "say along which other direction it is long"
        yield reading.problem("wrong-side", (*path, "along" if slot.along else "side"), message, hint)
    if slot.long < slot.wide:
        message = f"it is {reading.shown(slot.long)} long over all, and {reading.shown(slot.wide)} wide"
        yield reading.problem("wrong-size", (*path, "long"), message, "make it at least as long as wide")


def _recess(reading: Reading, part: PartSpec, path: KeyPath, recess: Recess) -> Iterator[Problem]:
    yield from placed_across(reading, (*path, "at"), recess.at, recess.side, "recess")
    square = (recess.long is not None) + (recess.wide is not None)
    if (recess.diameter is not None, square) not in ((True, 0), (False, 2)):
        message = "its size is not said in one way"
        yield reading.problem("size-needs-one", path, message, "say `long` and `wide`, or `diameter`", key=True)
    elif recess.diameter is not None and recess.corners is not None:
        message = "a round recess has no corners"
        yield reading.problem("size-needs-one", (*path, "corners"), message, "leave `corners` out", key=True)


SUNK_CHECKS: dict[type, Callable[[Reading, PartSpec, KeyPath, Any], Iterator[Problem]]] = {
    Groove: _groove,
    Rabbet: _rabbet,
    Slot: _slot,
    HandHold: _slot,
    Recess: _recess,
}
