"""Tenons and tongues: shoulders, ends, haunches, pegs and wedges that the written sizes can take."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.joints import BreadboardEnd, MortiseAndTenon
from plans.pegs import Pegs
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES, third_axis
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def check_mortise_and_tenon(
    reading: Reading, path: KeyPath, joint: MortiseAndTenon, part: PartSpec
) -> Iterator[Problem]:
    """Sides beside the width, ends that are ends, one length, and stock for all that is asked."""
    yield from _shoulders(reading, path, joint, part)
    yield from _one_length(reading, path, joint)
    for side, long in joint.haunch.items():
        if joint.shoulders.get(side, 0.0) <= 0:
            message = f"there is no shoulder on the {side} for a haunch to fill"
            hint = f"say how wide in `shoulders: {{{side}: ...}}`"
            yield reading.problem("wrong-side", (*path, "haunch", side), message, hint, key=True)
        if joint.long is not None and long >= joint.long:
            message = f"the haunch is {reading.shown(long)} long, and the tenon {reading.shown(joint.long)}"
            hint = "a haunch as long as the tenon is thick is usual"
            yield reading.problem("wrong-size", (*path, "haunch", side), message, hint)
    if joint.pegs is not None:
        yield from check_pegs(reading, (*path, "pegs"), joint.pegs, joint.of, part, joint.long)
    if joint.wedges is not None and not joint.through:
        message = "a blind tenon has no end to drive wedges into"
        yield reading.problem("wrong-value", (*path, "wedges"), message, "say `through: yes`", key=True)
    across = joint.thick if joint.twin is None else 2 * joint.thick + joint.twin
    yield from tongue(reading, path, joint.of, across, part)


def check_breadboard_end(reading: Reading, path: KeyPath, joint: BreadboardEnd, part: PartSpec) -> Iterator[Problem]:
    """A tongue that the panel has stock for, and a peg in its very middle."""
    yield from _ends(reading, path, joint, part)
    if 2 * joint.set_back >= part.width_at_most:
        message = f"set back at both edges, nothing is left: {joint.of} is {reading.shown(part.width_at_most)} wide"
        yield reading.problem("wrong-size", (*path, "set back"), message, "make it smaller")
    if joint.pegs.count % 2 == 0:
        message = f"of {joint.pegs.count} pegs none stands in the middle, where the panel is held"
        yield reading.problem("wrong-count", (*path, "pegs", "count"), message, "use an odd number")
    if joint.pegs.offset is not None:
        message = "a panel that must move is not drawn tight by its pegs"
        yield reading.problem("wrong-value", (*path, "pegs", "offset"), message, "take it out", key=True)
    yield from check_pegs(reading, (*path, "pegs"), joint.pegs, joint.of, part, joint.long)
    yield from tongue(reading, path, joint.of, joint.thick, part)


def _shoulders(reading: Reading, path: KeyPath, joint: MortiseAndTenon, part: PartSpec) -> Iterator[Problem]:
    width = third_axis(part.runs, part.thick)
    for side in joint.shoulders:
        if SIDE_AXIS[side] != width:
            message = f"a shoulder on the {side} is not beside the width of {joint.of}, which is measured {width}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == width)}; `thick` sets the other two"
            yield reading.problem("wrong-side", (*path, "shoulders", side), message, hint, key=True)
    yield from _ends(reading, path, joint, part)
    stock_left = part.width_at_most - sum(joint.shoulders.values())
    if stock_left <= 0:
        message = f"the shoulders leave nothing of the {reading.shown(part.width_at_most)} that {joint.of} is wide"
        yield reading.problem("wrong-size", (*path, "shoulders"), message, "make them smaller", key=True)
    elif joint.split is not None and joint.split >= stock_left:
        message = f"two tenons {reading.shown(joint.split)} apart have no room on {reading.shown(stock_left)} of width"
        yield reading.problem("wrong-size", (*path, "split"), message, "bring them nearer together")


def _ends(reading: Reading, path: KeyPath, joint: MortiseAndTenon | BreadboardEnd, part: PartSpec) -> Iterator[Problem]:
    for number, side in enumerate(joint.ends):
        if SIDE_AXIS[side] != part.runs:
            message = f"{side} is no end of {joint.of}, which runs {part.runs}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == part.runs)}"
            yield reading.problem("wrong-side", (*path, "ends", number), message, hint)


def _one_length(reading: Reading, path: KeyPath, joint: MortiseAndTenon) -> Iterator[Problem]:
    if joint.through and joint.long is not None:
        message = "it goes right through, and a length is stated"
        yield reading.problem("length-twice", (*path, "long"), message, "keep `long` or `through`; see also `proud`")
    if not joint.through and joint.long is None:
        message = "nothing says how long the tenon is"
        yield reading.problem("length-missing", path, message, "add `long`, or `through: yes`", key=True)
    if joint.proud is not None and not joint.through:
        message = "only a tenon that goes right through can stand proud"
        yield reading.problem("wrong-value", (*path, "proud"), message, "say `through: yes`", key=True)


def check_pegs(
    reading: Reading, path: KeyPath, pegs: Pegs, of: str, part: PartSpec, long: float | None
) -> Iterator[Problem]:
    """Pegs driven across the part, within the length of its tenon (mm; None where it goes right through)."""
    if pegs.driven_from is not None and SIDE_AXIS[pegs.driven_from] != part.thick:
        message = f"a peg from the {pegs.driven_from} would not cross the cheeks of {of}, which is thick {part.thick}"
        hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] == part.thick)}"
        yield reading.problem("wrong-side", (*path, "from"), message, hint)
    if long is not None and pegs.set_in + pegs.diameter / 2 >= long:
        message = f"the peg lies {reading.shown(pegs.set_in)} in, and the tenon is {reading.shown(long)} long"
        yield reading.problem("wrong-size", (*path, "set in"), message, "bring it nearer the shoulder")


def tongue(reading: Reading, path: KeyPath, name: str, thick: float, part: PartSpec) -> Iterator[Problem]:
    """A tongue no thicker than the part it is cut on."""
    if thick > part.thickness_at_most:
        message = f"{name} is {reading.shown(part.thickness_at_most)} thick, and its tongue {reading.shown(thick)}"
        yield reading.problem("wrong-size", (*path, "thick"), message, "a third of the thickness is usual")
