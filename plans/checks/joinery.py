"""Joints: two different parts, sides that make sense."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.fixings import two_parts
from plans.checks.reading import Reading
from plans.joints import JOINTS, Bridle, CrossHalving, GluedFace, MortiseAndTenon, NotchOver
from plans.kinds import kind_of
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES, third_axis
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed

Check = Callable[[Reading, KeyPath, Any, PartSpec], Iterator[Problem]]


def check_joinery(reading: Reading) -> Iterator[Problem]:
    """Every joint."""
    for number, joint in reading.joints.items():
        kind = kind_of(JOINTS, joint)
        path: KeyPath = ("joints", number, kind)
        first, second = _TWO_PARTS[type(joint)]
        yield from two_parts(reading, path, joint, first, second)
        part = reading.parts.get(getattr(joint, first))
        if part is not None and part.runs != part.thick and type(joint) in _CHECKS:
            yield from _CHECKS[type(joint)](reading, path, joint, part)


_TWO_PARTS: dict[type, tuple[str, str]] = {
    MortiseAndTenon: ("of", "into"),
    Bridle: ("of", "into"),
    CrossHalving: ("of", "across"),
    NotchOver: ("of", "over"),
    GluedFace: ("of", "to"),
}


def _mortise_and_tenon(reading: Reading, path: KeyPath, joint: MortiseAndTenon, part: PartSpec) -> Iterator[Problem]:
    width = third_axis(part.runs, part.thick)
    for side in joint.shoulders:
        if SIDE_AXIS[side] != width:
            message = f"a shoulder on the {side} is not beside the width of {joint.of}, which is measured {width}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == width)}; `thick` sets the other two"
            yield reading.problem("wrong-side", (*path, "shoulders", side), message, hint, key=True)
    for number, side in enumerate(joint.ends):
        if SIDE_AXIS[side] != part.runs:
            message = f"{side} is no end of {joint.of}, which runs {part.runs}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == part.runs)}"
            yield reading.problem("wrong-side", (*path, "ends", number), message, hint)
    stock_left = part.width - sum(joint.shoulders.values())
    if stock_left <= 0:
        message = f"the shoulders leave nothing of the {reading.shown(part.width)} that {joint.of} is wide"
        yield reading.problem("wrong-size", (*path, "shoulders"), message, "make them smaller", key=True)
    yield from _tongue(reading, path, joint.of, joint.thick, part)


def _bridle(reading: Reading, path: KeyPath, joint: Bridle, part: PartSpec) -> Iterator[Problem]:
    yield from _tongue(reading, path, joint.of, joint.thick, part)


def _tongue(reading: Reading, path: KeyPath, name: str, thick: float, part: PartSpec) -> Iterator[Problem]:
    if thick > part.thickness:
        message = f"{name} is {reading.shown(part.thickness)} thick, and its tongue {reading.shown(thick)}"
        yield reading.problem("wrong-size", (*path, "thick"), message, "a third of the thickness is usual")


def _cross_halving(reading: Reading, path: KeyPath, joint: CrossHalving, part: PartSpec) -> Iterator[Problem]:
    if SIDE_AXIS[joint.notch_in] == part.runs:
        message = f"{joint.notch_in} is an end of {joint.of}, which runs {part.runs}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.runs)}"
        yield reading.problem("wrong-side", (*path, "notch in"), message, hint)


_CHECKS: dict[type, Check] = {
    MortiseAndTenon: _mortise_and_tenon,
    Bridle: _bridle,
    CrossHalving: _cross_halving,
}
