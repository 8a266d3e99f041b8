"""Joints: two different parts, sides that make sense."""

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
from plans.checks.fixings import two_parts
from plans.checks.loose import check_biscuit, check_loose
from plans.checks.reading import Reading
from plans.checks.tenons import check_breadboard_end, check_mortise_and_tenon, tongue
from plans.joints import (
    JOINTS,
    Biscuit,
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
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES
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
    Biscuit: ("of", "into"),
    BreadboardEnd: ("of", "into"),
    Scribe: ("of", "to"),
}


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
    Biscuit: check_biscuit,
    BreadboardEnd: check_breadboard_end,
    Scribe: _scribe,
}
