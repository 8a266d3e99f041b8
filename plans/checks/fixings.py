"""Fixings: two different parts, one way to say a screw, sizes that are in the tables."""

from collections.abc import Callable, Iterator
from typing import Any

from plans.checks.reading import Reading
from plans.fixings import (
    FIXINGS,
    SIZE_TABLES,
    ButtHinge,
    DrawerSlide,
    LidStay,
    MachineBolt,
    Magnet,
    Nail,
    Pull,
    ShelfPin,
    TopFastener,
    WallStrap,
    WoodScrew,
)
from plans.kinds import kind_of
from plans.library import bought, screw, screws, sizes_of
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES
from plans.source import KeyPath
from plans.suggest import listed

Check = Callable[[Reading, KeyPath, Any], Iterator[Problem]]


def check_fixings(reading: Reading) -> Iterator[Problem]:
    """Every fixing."""
    for number, fixing in reading.fixings.items():
        path: KeyPath = ("fixings", number, kind_of(FIXINGS, fixing))
        if type(fixing) in _TWO_PARTS:
            yield from two_parts(reading, path, fixing, *_TWO_PARTS[type(fixing)])
        if type(fixing) in SIZE_TABLES:
            yield from _size(reading, path, fixing, SIZE_TABLES[type(fixing)])
        if type(fixing) in _CHECKS:
            yield from _CHECKS[type(fixing)](reading, path, fixing)


def two_parts(reading: Reading, path: KeyPath, entry: Any, first: str, second: str) -> Iterator[Problem]:
    """A kind of part may meet its own kind only where there is more than one of it."""
    name = getattr(entry, first)
    part = reading.parts.get(name)
    if name == getattr(entry, second) and part is not None and not part.mirror and part.repeat is None:
        message = f"`{first}` and `{second}` are both {name}, and there is only one of it"
        yield reading.problem("part-meets-itself", (*path, second), message, "name another part")


def _size(reading: Reading, path: KeyPath, fixing: Any, table: str) -> Iterator[Problem]:
    if bought(table, fixing.size) is None:
        message = f"there is no size '{fixing.size}' in the table"
        yield reading.problem("unknown-size", (*path, "size"), message, f"there are {listed(sizes_of(table))}")


def _wood_screw(reading: Reading, path: KeyPath, fixing: WoodScrew) -> Iterator[Problem]:
    if (fixing.gauge is None) == (fixing.diameter is None):
        said = "both `gauge` and `diameter` are said" if fixing.gauge else "nothing says how thick the screw is"
        yield reading.problem("screw-needs-one", path, said, "say `gauge`, or `diameter` for a metric screw", key=True)
    elif fixing.gauge is not None and screw(fixing.gauge) is None:
        hint = f"there are {listed(str(one.gauge) for one in screws())}"
        yield reading.problem(
            "unknown-gauge", (*path, "gauge"), f"there is no screw of gauge {fixing.gauge} in the table", hint
        )
    if fixing.plugged is not None and fixing.sunk is not None:
        message = "`plugged` and `sunk` both say how deep the head lies"
        yield reading.problem("wrong-value", (*path, "sunk"), message, "keep `plugged` to cover it, `sunk` to leave it")
    if fixing.play is not None and fixing.slotted is None:
        message = "`play` is how far a screw may move in its slot, and no slot is asked for"
        yield reading.problem("wrong-value", (*path, "play"), message, "add `slotted`, or take `play` out", key=True)


def _pull(reading: Reading, path: KeyPath, fixing: Pull) -> Iterator[Problem]:
    for side in fixing.at:
        if SIDE_AXIS[side] == SIDE_AXIS[fixing.side]:
            message = f"{side} says nothing about where it stands on the {fixing.side}"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] != SIDE_AXIS[fixing.side])}"
            yield reading.problem("wrong-side", (*path, "at", side), message, hint, key=True)
    if fixing.lies == SIDE_AXIS[fixing.side]:
        message = f"what is on the {fixing.side} cannot lie {fixing.lies}"
        yield reading.problem("wrong-direction", (*path, "side"), message, "say in `lies` which way it lies")


def _wall_strap(reading: Reading, path: KeyPath, fixing: WallStrap) -> Iterator[Problem]:
    axes = {SIDE_AXIS[fixing.side], SIDE_AXIS[fixing.wall]}
    if len(axes) == 1:
        message = f"a strap on the {fixing.side} cannot turn against a wall at the {fixing.wall}"
        yield reading.problem("wrong-side", (*path, "wall"), message, "say the side where the wall stands")
        return
    for side in fixing.at:
        if SIDE_AXIS[side] in axes:
            message = f"{side} says nothing about where it stands between the {fixing.side} and the wall"
            hint = f"use {listed(s for s in SIDES if SIDE_AXIS[s] not in axes)}"
            yield reading.problem("wrong-side", (*path, "at", side), message, hint, key=True)


_TWO_PARTS: dict[type, tuple[str, str]] = {
    WoodScrew: ("through", "into"),
    TopFastener: ("of", "to"),
    ButtHinge: ("of", "on"),
    ShelfPin: ("under", "into"),
    MachineBolt: ("through", "into"),
    Magnet: ("of", "to"),
    Nail: ("through", "into"),
    DrawerSlide: ("of", "on"),
    LidStay: ("of", "on"),
}
_CHECKS: dict[type, Check] = {WoodScrew: _wood_screw, Pull: _pull, WallStrap: _wall_strap}
