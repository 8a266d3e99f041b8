"""Shaping and leaning: sides that can take what is asked of them."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.outlines import OUTLINE_CHECKS
from plans.checks.reading import Reading
from plans.checks.repeats import check_repeat
from plans.checks.sides import an_end, long_sides, one_a_direction, placed_across
from plans.checks.sunk import SUNK_CHECKS
from plans.kinds import kind_of
from plans.problems import Problem
from plans.shaping import SHAPINGS, Bevel, EndCut, Hole, Notch, Taper
from plans.sides import SIDE_AXIS, SIDES
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed

Check = Callable[[Reading, PartSpec, KeyPath, Any], Iterator[Problem]]


def check_shapes(reading: Reading) -> Iterator[Problem]:
    """Every shaping of every part, its lean, its repeat and its show face."""
    for name, part in reading.parts.items():
        path: KeyPath = ("parts", name)
        if part.runs == part.thick:
            continue  # told already; no side can be judged
        for number, shaping in enumerate(part.shaping):
            check = _CHECKS.get(type(shaping))
            if check is not None:
                kind = kind_of(SHAPINGS, shaping)
                yield from check(reading, part, (*path, "shaping", number, kind), shaping)
        yield from _lean(reading, part, path)
        yield from check_repeat(reading, part.repeat, path)
        if part.show_face is not None:
            yield from long_sides(reading, part, (*path, "show face"), [part.show_face])


def _taper(reading: Reading, part: PartSpec, path: KeyPath, taper: Taper) -> Iterator[Problem]:
    yield from long_sides(reading, part, (*path, "sides"), taper.sides)
    yield from an_end(reading, part, (*path, "from"), taper.start)
    narrowed = {SIDE_AXIS[side] for side in taper.sides} - {part.runs}
    for axis in sorted(narrowed):
        size, called = (part.thickness_at_most, "thickness") if axis == part.thick else (part.width_at_most, "width")
        if taper.to >= size:
            message = f"it tapers to {reading.shown(taper.to)}, and its {called} is {reading.shown(size)}"
            yield reading.problem("taper-not-smaller", (*path, "to"), message, f"taper to less than the {called}")
    if part.length is not None and taper.after >= part.length:
        message = (
            f"the taper begins {reading.shown(taper.after)} from an end of a part {reading.shown(part.length)} long"
        )
        yield reading.problem("wrong-size", (*path, "after"), message, "begin it sooner")


def _end_cut(reading: Reading, part: PartSpec, path: KeyPath, cut: EndCut) -> Iterator[Problem]:
    yield from an_end(reading, part, (*path, "end"), cut.end)
    yield from long_sides(reading, part, (*path, "slopes"), cut.slopes)
    yield from one_a_direction(reading, (*path, "slopes"), cut.slopes)


def _bevel(reading: Reading, part: PartSpec, path: KeyPath, bevel: Bevel) -> Iterator[Problem]:
    yield from long_sides(reading, part, (*path, "edge"), [bevel.edge])
    yield from long_sides(reading, part, (*path, "towards"), [bevel.towards])
    if SIDE_AXIS[bevel.edge] == SIDE_AXIS[bevel.towards]:
        message = f"the {bevel.edge} edge cannot slope towards the {bevel.towards}"
        others = [s for s in SIDES if SIDE_AXIS[s] not in (SIDE_AXIS[bevel.edge], part.runs)]
        yield reading.problem("wrong-side", (*path, "towards"), message, f"use {listed(others)}")


def _notch(reading: Reading, part: PartSpec, path: KeyPath, notch: Notch) -> Iterator[Problem]:
    yield from long_sides(reading, part, (*path, "side"), [notch.side])
    yield from an_end(reading, part, (*path, "from"), notch.start)


def _hole(reading: Reading, part: PartSpec, path: KeyPath, hole: Hole) -> Iterator[Problem]:
    yield from placed_across(reading, (*path, "at"), hole.at, hole.side, "hole")
    yield from placed_across(reading, (*path, "and at"), hole.and_at, hole.side, "hole")
    if hole.stepped is not None and hole.stepped.diameter <= hole.diameter:
        message = "the step of a hole must be wider than the hole"
        yield reading.problem("wrong-size", (*path, "stepped", "diameter"), message, "make it wider, or leave it out")
    if hole.countersunk is not None and hole.countersunk <= hole.diameter:
        message = "a countersink must be wider than the hole"
        yield reading.problem("wrong-size", (*path, "countersunk"), message, "make it wider, or leave it out")
    if hole.count > 1 and hole.spacing is None:
        yield reading.problem(
            "spacing-missing",
            (*path, "count"),
            "a row of holes needs its spacing",
            "add `spacing`, from centre to centre",
        )
    if hole.count > 1 and SIDE_AXIS[hole.side] == part.runs:
        message = "holes bored into an end cannot stand in a row along the part"
        yield reading.problem("wrong-side", (*path, "side"), message, "say each hole by itself")


_CHECKS: dict[type, Check] = {
    Taper: _taper,
    EndCut: _end_cut,
    Bevel: _bevel,
    Notch: _notch,
    Hole: _hole,
    **OUTLINE_CHECKS,
    **SUNK_CHECKS,
}


def _lean(reading: Reading, part: PartSpec, path: KeyPath) -> Iterator[Problem]:
    if part.lean is None:
        return
    yield from one_a_direction(reading, (*path, "lean", "foot to"), part.lean.foot_to)
    for side in part.lean.foot_to:
        if SIDE_AXIS[side] == "up-down":
            message = f"a foot cannot go to the {side} by leaning"
            yield reading.problem(
                "wrong-side", (*path, "lean", "foot to", side), message, "use left, right, front or back", key=True
            )
    if part.follows is not None:
        message = f"it leans by itself, and follows {part.follows}"
        yield reading.problem("lean-twice", (*path, "follows"), message, "keep `lean` or `follows`")
