"""Joints and fixings: two different parts, sides that make sense, one way to say a screw."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.reading import Reading
from plans.fixings import FIXINGS, WoodScrew
from plans.joints import (
    JOINTS,
    BoxJoint,
    Bridle,
    CrossHalving,
    Dovetail,
    GluedFace,
    GroovedPanel,
    Housing,
    MortiseAndTenon,
    NotchOver,
    Rabbet,
    SlidingDovetail,
    TongueAndGroove,
)
from plans.kinds import kind_of
from plans.library import screw, screws
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES, third_axis
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed

Check = Callable[[Reading, KeyPath, Any, PartSpec], Iterator[Problem]]


def check_joinery(reading: Reading) -> Iterator[Problem]:
    """Every joint and every fixing."""
    for number, joint in reading.joints.items():
        kind = kind_of(JOINTS, joint)
        path: KeyPath = ("joints", number, kind)
        first, second = _TWO_PARTS[type(joint)]
        yield from _two_parts(reading, path, joint, first, second)
        part = reading.parts.get(getattr(joint, first))
        if part is not None and part.runs != part.thick and type(joint) in _CHECKS:
            yield from _CHECKS[type(joint)](reading, path, joint, part)
    for number, fixing in reading.fixings.items():
        kind = kind_of(FIXINGS, fixing)
        yield from _two_parts(reading, ("fixings", number, kind), fixing, "through", "into")
        yield from _screw(reading, ("fixings", number, kind), fixing)


_TWO_PARTS: dict[type, tuple[str, str]] = {
    MortiseAndTenon: ("of", "into"),
    Bridle: ("of", "into"),
    CrossHalving: ("of", "across"),
    NotchOver: ("of", "over"),
    GluedFace: ("of", "to"),
    Housing: ("of", "into"),
    Rabbet: ("of", "into"),
    TongueAndGroove: ("of", "into"),
    GroovedPanel: ("of", "into"),
    BoxJoint: ("of", "into"),
    Dovetail: ("of", "into"),
    SlidingDovetail: ("of", "into"),
}


def _two_parts(reading: Reading, path: KeyPath, entry: Any, first: str, second: str) -> Iterator[Problem]:
    """A kind of part may meet its own kind only where there is more than one of it."""
    name = getattr(entry, first)
    part = reading.parts.get(name)
    others = getattr(entry, second)
    if (
        name in (others if isinstance(others, tuple) else (others,))
        and part is not None
        and not part.mirror
        and part.repeat is None
    ):
        message = f"`{first}` and `{second}` are both {name}, and there is only one of it"
        yield reading.problem("part-meets-itself", (*path, second), message, "name another part")


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


def _housing(reading: Reading, path: KeyPath, joint: Housing, part: PartSpec) -> Iterator[Problem]:
    for side in joint.stopped:
        if SIDE_AXIS[side] == part.thick:
            message = f"a groove is stopped short of an edge, and the {side} is a face of {joint.of}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
            yield reading.problem("wrong-side", (*path, "stopped", side), message, hint, key=True)
    width = third_axis(part.runs, part.thick)
    if sum(short for side, short in joint.stopped.items() if SIDE_AXIS[side] == width) >= part.width:
        message = f"it is stopped by all of the {reading.shown(part.width)} that {joint.of} is wide"
        yield reading.problem("wrong-size", (*path, "stopped"), message, "make it less", key=True)
    yield from _thinned(reading, path, joint, part)


def _thinned(reading: Reading, path: KeyPath, joint: Any, part: PartSpec) -> Iterator[Problem]:
    """A tongue thinner than its part, in the middle or flush with a face."""
    if joint.thick is not None:
        yield from _tongue(reading, path, joint.of, joint.thick, part)
    if joint.flush is not None and SIDE_AXIS[joint.flush] != part.thick:
        message = f"{joint.flush} is no face of {joint.of}, which is thick {part.thick}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == part.thick)}"
        yield reading.problem("wrong-side", (*path, "flush"), message, hint)


def _tongue_and_groove(reading: Reading, path: KeyPath, joint: TongueAndGroove, part: PartSpec) -> Iterator[Problem]:
    yield from _thinned(reading, path, joint, part)
    if joint.edge is not None and SIDE_AXIS[joint.edge] == part.thick:
        message = f"a tongue grows from an edge, and the {joint.edge} is a face of {joint.of}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
        yield reading.problem("wrong-side", (*path, "edge"), message, hint)
    if joint.edge is None and joint.of == joint.into:
        message = "between parts of one kind nothing says which edge has the tongue"
        yield reading.problem("missing-key", path, message, "add `edge`, as in `edge: right`", key=True)


def _grooved_panel(reading: Reading, path: KeyPath, joint: GroovedPanel, part: PartSpec) -> Iterator[Problem]:
    yield from _thinned(reading, path, joint, part)
    if joint.room is not None and not 0 <= joint.room < joint.deep:
        message = f"{reading.shown(joint.room)} of room in a groove {reading.shown(joint.deep)} deep holds no panel"
        yield reading.problem("wrong-size", (*path, "room"), message, "half of the depth, or less, is usual")
    if joint.slides_in_from is not None and SIDE_AXIS[joint.slides_in_from] == part.thick:
        message = f"{joint.slides_in_from} is a face of {joint.of}; a panel slides along its own plane"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
        yield reading.problem("wrong-side", (*path, "slides in from"), message, hint)


def _box_joint(reading: Reading, path: KeyPath, joint: BoxJoint, part: PartSpec) -> Iterator[Problem]:
    if joint.fingers < 2:
        yield reading.problem(
            "wrong-size", (*path, "fingers"), "one finger fills no gap", "use an odd number, three or more"
        )


def _dovetail(reading: Reading, path: KeyPath, joint: Dovetail, part: PartSpec) -> Iterator[Problem]:
    half = joint.pin if joint.half_pin is None else joint.half_pin
    pins = 2 * half + (joint.tails - 1) * joint.pin
    if pins >= part.width:
        message = f"the pins take {reading.shown(pins)} of the {reading.shown(part.width)} that {joint.of} is wide"
        yield reading.problem("wrong-size", (*path, "pin"), message, "make them narrower, or have fewer tails")


def _sliding_dovetail(reading: Reading, path: KeyPath, joint: SlidingDovetail, part: PartSpec) -> Iterator[Problem]:
    if joint.thick is not None:
        yield from _tongue(reading, path, joint.of, joint.thick, part)
    hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
    if SIDE_AXIS[joint.slides_in_from] == part.thick:
        message = f"{joint.slides_in_from} is a face of {joint.of}; it slides along its groove"
        yield reading.problem("wrong-side", (*path, "slides in from"), message, hint)
    for side in joint.stopped:
        if side == joint.slides_in_from or SIDE_AXIS[side] != SIDE_AXIS[joint.slides_in_from]:
            message = f"a groove slid into from the {joint.slides_in_from} cannot be stopped at the {side}"
            yield reading.problem("wrong-side", (*path, "stopped", side), message, "stop it at the other end", key=True)


_CHECKS: dict[type, Check] = {
    MortiseAndTenon: _mortise_and_tenon,
    Bridle: _bridle,
    CrossHalving: _cross_halving,
    Housing: _housing,
    TongueAndGroove: _tongue_and_groove,
    GroovedPanel: _grooved_panel,
    BoxJoint: _box_joint,
    Dovetail: _dovetail,
    SlidingDovetail: _sliding_dovetail,
}


def _screw(reading: Reading, path: KeyPath, fixing: WoodScrew) -> Iterator[Problem]:
    if (fixing.gauge is None) == (fixing.diameter is None):
        said = "both `gauge` and `diameter` are said" if fixing.gauge else "nothing says how thick the screw is"
        yield reading.problem("screw-needs-one", path, said, "say `gauge`, or `diameter` for a metric screw", key=True)
    elif fixing.gauge is not None and screw(fixing.gauge) is None:
        hint = f"there are {listed(str(one.gauge) for one in screws())}"
        yield reading.problem(
            "unknown-gauge", (*path, "gauge"), f"there is no screw of gauge {fixing.gauge} in the table", hint
        )
