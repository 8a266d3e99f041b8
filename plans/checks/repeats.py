"""Rows and mirror images, of parts and of assemblies: said in one way, and never in the same place."""

from collections.abc import Iterator

from plans.checks.places import terms_along
from plans.checks.reading import Reading
from plans.placing import Repeat, SetBy
from plans.problems import Problem
from plans.sides import Axis, sides_of
from plans.source import KeyPath
from plans.suggest import listed


def check_repeat(reading: Reading, repeat: Repeat | None, path: KeyPath) -> Iterator[Problem]:
    """Exactly one way to spread a row, and sides that lie along it. `path` is that of what is repeated."""
    if repeat is None:
        return
    at = (*path, "repeat")
    ways = [way for way in ("between", "filling", "gap", "spacing") if getattr(repeat, way) is not None]
    if len(ways) != 1:
        said = " and ".join(f"`{way}`" for way in ways)
        message = f"it is spread by {said}" if ways else "nothing says how far apart they stand"
        hint = "say one of `between`, `filling`, `gap` and `spacing`"
        yield reading.problem("repeat-needs-one", at, message, hint, key=True)
    yield from _between(reading, repeat, (*at, "between"))
    if repeat.start is not None:
        yield from _start(reading, repeat, (*at, "from"))


def _between(reading: Reading, repeat: Repeat, path: KeyPath) -> Iterator[Problem]:
    if repeat.between is None:
        return
    wanted = sides_of(repeat.along)
    for side, position in repeat.between.items():
        if side not in wanted:
            message = f"a row that runs {repeat.along} does not end at the {side}"
            yield reading.problem("wrong-side", (*path, side), message, f"use {listed(wanted)}", key=True)
        else:
            yield from terms_along(reading, (*path, side), position, repeat.along)
    missing = [side for side in wanted if side not in repeat.between]
    if missing:
        message = f"`{missing[0]}` is missing"
        hint = f"say where it begins and where it ends, `{wanted[0]}` and `{wanted[1]}`"
        yield reading.problem("missing-key", path, message, hint, key=True)


def _start(reading: Reading, repeat: Repeat, path: KeyPath) -> Iterator[Problem]:
    wanted = sides_of(repeat.along)
    if repeat.start not in wanted:
        message = f"a row that runs {repeat.along} does not begin on the {repeat.start}"
        yield reading.problem("wrong-side", path, message, f"use {listed(wanted)}")
    elif repeat.between is not None:
        message = "`between` says already where the row begins"
        yield reading.problem("position-twice", path, message, "take one of them out", key=True)


def check_mirror(
    reading: Reading, mirror: tuple[Axis, ...], where: SetBy | None, path: KeyPath, middle: str = "the piece"
) -> Iterator[Problem]:
    """Something centred on the very line it is mirrored in. `path` is that of what is mirrored."""
    for number, axis in enumerate(mirror):
        if where is not None and where.centred.get(axis, "") is None:
            message = f"it is centred {axis} on {middle}, so that its mirror image would stand in the same place"
            hint = "place it to one side, or take the mirror out"
            yield reading.problem("mirror-in-place", (*path, "mirror", number), message, hint)


def copies_in_one_place(reading: Reading, repeat: Repeat | None, cut: set[Axis], path: KeyPath) -> Iterator[Problem]:
    """A row along a direction in which the part fills what it is cut to: every one would stand in the same place."""
    if repeat is not None and repeat.along in cut:
        low, high = sides_of(repeat.along)
        message = f"it is cut to something on the {low} and on the {high}, so that all would stand in the same place"
        yield reading.problem("wrong-direction", (*path, "repeat", "along"), message, "repeat it another way")
