"""Joints and fixings: two different parts, sides that make sense, one way to say a screw."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.case_joints import (
    check_box_joint,
    check_dovetail,
    check_grooved_panel,
    check_housing,
    check_mitre,
    check_sliding_dovetail,
    check_tongue_and_groove,
)
from plans.checks.loose import check_loose
from plans.checks.reading import Reading
from plans.checks.tenons import check_breadboard_end, check_mortise_and_tenon, tongue
from plans.fixings import FIXINGS, WoodScrew
from plans.joints import (
    JOINTS,
    BoxJoint,
    BreadboardEnd,
    Bridle,
    CrossHalving,
    Dovetail,
    Dowel,
    GluedFace,
    GroovedPanel,
    Housing,
    LooseTenon,
    Mitre,
    MortiseAndTenon,
    NotchOver,
    Rabbet,
    Scribe,
    SlidingDovetail,
    TongueAndGroove,
)
from plans.kinds import kind_of
from plans.library import screw, screws
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES
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
    Mitre: ("of", "into"),
    LooseTenon: ("of", "into"),
    Dowel: ("of", "into"),
    BreadboardEnd: ("of", "into"),
    Scribe: ("of", "to"),
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


def _bridle(reading: Reading, path: KeyPath, joint: Bridle, part: PartSpec) -> Iterator[Problem]:
    yield from tongue(reading, path, joint.of, joint.thick, part)


def _cross_halving(reading: Reading, path: KeyPath, joint: CrossHalving, part: PartSpec) -> Iterator[Problem]:
    if SIDE_AXIS[joint.notch_in] == part.runs:
        message = f"{joint.notch_in} is an end of {joint.of}, which runs {part.runs}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.runs)}"
        yield reading.problem("wrong-side", (*path, "notch in"), message, hint)


def _scribe(reading: Reading, path: KeyPath, joint: Scribe, part: PartSpec) -> Iterator[Problem]:
    for number, side in enumerate(joint.side):
        if SIDE_AXIS[side] == part.thick:
            message = f"{side} is a face of {joint.of}, which is thick {part.thick}; ends and edges are scribed"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != part.thick)}"
            yield reading.problem("wrong-side", (*path, "side", number), message, hint)


_CHECKS: dict[type, Check] = {
    MortiseAndTenon: check_mortise_and_tenon,
    Bridle: _bridle,
    CrossHalving: _cross_halving,
    Housing: check_housing,
    TongueAndGroove: check_tongue_and_groove,
    GroovedPanel: check_grooved_panel,
    BoxJoint: check_box_joint,
    Dovetail: check_dovetail,
    SlidingDovetail: check_sliding_dovetail,
    Mitre: check_mitre,
    LooseTenon: check_loose,
    Dowel: check_loose,
    BreadboardEnd: check_breadboard_end,
    Scribe: _scribe,
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
