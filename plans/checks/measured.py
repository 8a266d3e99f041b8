"""What was measured on the finished piece: sides that can be measured from one to the other, and names in words."""

from collections.abc import Iterator

from plans.checks.own_steps import names_said
from plans.checks.reading import Reading
from plans.measured import Measured
from plans.problems import Problem
from plans.sides import SIDE_AXIS, sides_of
from plans.source import KeyPath


def check_measured(reading: Reading) -> Iterator[Problem]:
    """Every entry of `measured` and `did differently`; only where the rest of the design is right."""
    if reading.spec is None:
        return
    for number, entry in enumerate(reading.spec.measured):
        path: KeyPath = ("measured", number)
        yield from _apart(reading, path, entry)
        if entry.note:
            yield from names_said(reading, reading.spec, (*path, "note"), entry.note)
    for number, done in enumerate(reading.spec.did_differently):
        yield from names_said(reading, reading.spec, ("did differently", number, "what"), done.what)


def _apart(reading: Reading, path: KeyPath, entry: Measured) -> Iterator[Problem]:
    """Both places of `between` along one direction, at least one of them a side of a part."""
    if entry.between is None:
        return
    axis = entry.axis
    if axis is None:
        message = "neither of these is a side of a part"
        yield reading.problem("wrong-value", (*path, "between"), message, "as in `[rail.top, floor]`")
        return
    low, high = sides_of(axis)
    for number, place in enumerate(entry.between):
        for term in place.terms:
            if SIDE_AXIS[term.side] != axis:
                message = f"this is measured {axis}, and the {term.side} of {term.part} is not"
                hint = f"measure to its {low} or its {high}"
                yield reading.problem("wrong-direction", (*path, "between", number), message, hint)
    if entry.measured_at is not None and axis == "up-down":
        message = "heights are measured wherever they are; `measured at` is for sides that lean"
        yield reading.problem("wrong-value", (*path, "measured at"), message, "take it out", key=True)
