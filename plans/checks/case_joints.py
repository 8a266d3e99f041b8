"""Joints of cases, panels and corners: sides that can take them, and stock for all that is asked."""

from collections.abc import Iterator
from typing import Any

from plans.checks.reading import Reading
from plans.checks.tenons import tongue
from plans.joints import BoxJoint, Dovetail, GroovedPanel, Housing, Mitre, SlidingDovetail, TongueAndGroove
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES, third_axis
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def check_housing(reading: Reading, path: KeyPath, joint: Housing, part: PartSpec) -> Iterator[Problem]:
    """Stopped short of edges, and by less than there is; a tongue the part has stock for."""
    for side in joint.stopped:
        if SIDE_AXIS[side] == part.thick:
            message = f"a groove is stopped short of an edge, and the {side} is a face of {joint.of}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
            yield reading.problem("wrong-side", (*path, "stopped", side), message, hint, key=True)
    width = third_axis(part.runs, part.thick)
    if sum(short for side, short in joint.stopped.items() if SIDE_AXIS[side] == width) >= part.width_at_most:
        message = f"it is stopped by all of the {reading.shown(part.width_at_most)} that {joint.of} is wide"
        yield reading.problem("wrong-size", (*path, "stopped"), message, "make it less", key=True)
    yield from _thinned(reading, path, joint, part)


def _thinned(reading: Reading, path: KeyPath, joint: Any, part: PartSpec) -> Iterator[Problem]:
    """A tongue thinner than its part, in the middle or flush with a face."""
    if joint.thick is not None:
        yield from tongue(reading, path, joint.of, joint.thick, part)
    if joint.flush is not None and SIDE_AXIS[joint.flush] != part.thick:
        message = f"{joint.flush} is no face of {joint.of}, which is thick {part.thick}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == part.thick)}"
        yield reading.problem("wrong-side", (*path, "flush"), message, hint)


def check_tongue_and_groove(
    reading: Reading, path: KeyPath, joint: TongueAndGroove, part: PartSpec
) -> Iterator[Problem]:
    """A tongue on an edge, which between parts of one kind is named."""
    yield from _thinned(reading, path, joint, part)
    if joint.edge is not None and SIDE_AXIS[joint.edge] == part.thick:
        message = f"a tongue grows from an edge, and the {joint.edge} is a face of {joint.of}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
        yield reading.problem("wrong-side", (*path, "edge"), message, hint)
    if joint.edge is None and joint.of == joint.into:
        message = "between parts of one kind nothing says which edge has the tongue"
        yield reading.problem("missing-key", path, message, "add `edge`, as in `edge: right`", key=True)


def check_grooved_panel(reading: Reading, path: KeyPath, joint: GroovedPanel, part: PartSpec) -> Iterator[Problem]:
    """Room for less than the groove, and a way in along the panel."""
    yield from _thinned(reading, path, joint, part)
    if joint.room is not None and not 0 <= joint.room < joint.deep:
        message = f"{reading.shown(joint.room)} of room in a groove {reading.shown(joint.deep)} deep holds no panel"
        yield reading.problem("wrong-size", (*path, "room"), message, "half of the depth, or less, is usual")
    if joint.slides_in_from is not None and SIDE_AXIS[joint.slides_in_from] == part.thick:
        message = f"{joint.slides_in_from} is a face of {joint.of}; a panel slides along its own plane"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
        yield reading.problem("wrong-side", (*path, "slides in from"), message, hint)


def check_box_joint(reading: Reading, path: KeyPath, joint: BoxJoint, part: PartSpec) -> Iterator[Problem]:
    """More than one finger."""
    if joint.fingers < 2:
        yield reading.problem(
            "wrong-size", (*path, "fingers"), "one finger fills no gap", "use an odd number, three or more"
        )


def check_dovetail(reading: Reading, path: KeyPath, joint: Dovetail, part: PartSpec) -> Iterator[Problem]:
    """Pins that leave something for tails."""
    half = joint.pin if joint.half_pin is None else joint.half_pin
    pins = 2 * half + (joint.tails - 1) * joint.pin
    if pins >= part.width_at_most:
        message = f"the pins take {reading.shown(pins)}, and {joint.of} is {reading.shown(part.width_at_most)} wide"
        yield reading.problem("wrong-size", (*path, "pin"), message, "make them narrower, or have fewer tails")


def check_sliding_dovetail(
    reading: Reading, path: KeyPath, joint: SlidingDovetail, part: PartSpec
) -> Iterator[Problem]:
    """A way in along the groove, and a stop at its other end."""
    if joint.thick is not None:
        yield from tongue(reading, path, joint.of, joint.thick, part)
    hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
    if SIDE_AXIS[joint.slides_in_from] == part.thick:
        message = f"{joint.slides_in_from} is a face of {joint.of}; it slides along its groove"
        yield reading.problem("wrong-side", (*path, "slides in from"), message, hint)
    for side in joint.stopped:
        if side == joint.slides_in_from or SIDE_AXIS[side] != SIDE_AXIS[joint.slides_in_from]:
            message = f"a groove slid into from the {joint.slides_in_from} cannot be stopped at the {side}"
            yield reading.problem("wrong-side", (*path, "stopped", side), message, "stop it at the other end", key=True)


def check_mitre(reading: Reading, path: KeyPath, joint: Mitre, part: PartSpec) -> Iterator[Problem]:
    """A spline or keys, not both."""
    if joint.spline is not None and joint.keys is not None:
        message = "a spline and keys would cut into each other"
        yield reading.problem("wrong-value", (*path, "keys"), message, "use one of them", key=True)
