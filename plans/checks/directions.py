"""Where each part stands: every direction settled once, and no part waiting for itself."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.fields import Position
from plans.order import needed_by, sort_parts
from plans.problems import Problem
from plans.sides import AXES, SIDE_AXIS, SIDES, Axis, sides_of
from plans.source import KeyPath
from plans.spec import PartSpec


def check_directions(reading: Reading) -> Iterator[Problem]:
    """Directions settled twice or not at all, lengths said twice or not at all, sides of the wrong direction, loops."""
    for name, part in reading.parts.items():
        if part.runs == part.thick:
            message = f"its length and its thickness cannot both be {part.runs}"
            yield reading.problem(
                "same-direction", ("parts", name, "thick"), message, "give `thick` one of the other two directions"
            )
            continue
        for axis in AXES:
            yield from _settled(reading, name, part, axis)
        yield from _length(reading, name, part)
        yield from _sides_fit(reading, name, part)
        yield from _mirrors(reading, name, part)
    yield from _loops(reading)


def _cut_at_both_ends(part: PartSpec, axis: Axis) -> bool:
    return all(side in part.cut_to for side in sides_of(axis))


def _settled(reading: Reading, name: str, part: PartSpec, axis: Axis) -> Iterator[Problem]:
    said = [str(side) for side in sides_of(axis) if getattr(part.where, side) is not None]
    said += ["centred"] if axis in part.where.centred else []
    if len(said) > 1:
        message = f"{axis} is settled twice, by `{said[0]}` and by `{said[1]}`"
        hint = "keep one of them; to end a part at two places use `cut to`"
        yield reading.problem("position-twice", ("parts", name, "where", said[1]), message, hint, key=True)
    if not said and not _cut_at_both_ends(part, axis):
        low, high = sides_of(axis)
        message = f"nothing says where it stands {axis}"
        hint = f"add `{low}`, `{high}` or `centred: {axis}`"
        yield reading.problem("position-missing", ("parts", name, "where"), message, hint, key=True)


def _length(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    low, high = sides_of(part.runs)
    cut = _cut_at_both_ends(part, part.runs)
    if cut and part.length is not None:
        message = f"a length is stated, and `cut to` says both ends, {low} and {high}: which is it?"
        yield reading.problem("length-twice", ("parts", name, "length"), message, "keep the length, or the two ends")
    if not cut and part.length is None:
        message = "nothing says how long it is"
        hint = f"add `length`, or say in `cut to` what both ends, {low} and {high}, are cut to"
        yield reading.problem("length-missing", ("parts", name), message, hint, key=True)


def _sides_fit(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    for side in SIDES:
        yield from _terms_along(reading, name, ("where", side), getattr(part.where, side), SIDE_AXIS[side])
    yield from _terms_along(reading, name, ("where", "measured at"), part.where.measured_at, "up-down")
    for side, target in part.cut_to.items():
        yield from _terms_along(reading, name, ("cut to", side), target.level, SIDE_AXIS[side])
        if SIDE_AXIS[side] == part.thick:
            message = f"{side} is a face of it (it is thick {part.thick}), and only ends and edges are cut to something"
            yield reading.problem(
                "wrong-side", ("parts", name, "cut to", side), message, "set its `thickness`", key=True
            )


def _terms_along(
    reading: Reading, name: str, keys: KeyPath, position: Position | None, axis: Axis
) -> Iterator[Problem]:
    for term in position.terms if position else ():
        if SIDE_AXIS[term.side] != axis:
            low, high = sides_of(axis)
            message = f"`{keys[-1]}` is measured {axis}, and the {term.side} of {term.part} is not"
            yield reading.problem("wrong-direction", ("parts", name, *keys), message, f"use its {low} or its {high}")


def _mirrors(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    for number, axis in enumerate(part.mirror):
        if part.where.centred.get(axis, "") is None:
            message = f"it is centred {axis}, so that its mirror image would stand in the same place"
            yield reading.problem(
                "mirror-in-place",
                ("parts", name, "mirror", number),
                message,
                "place it to one side, or take the mirror out",
            )


def _loops(reading: Reading) -> Iterator[Problem]:
    for name, part in reading.parts.items():
        if name in (needs := needed_by(part)):
            message = f"it cannot be placed by, follow or be cut to {name}: that is itself"
            yield reading.problem("part-meets-itself", ("parts", name, *needs[name]), message, "name another part")
    _, loop = sort_parts(reading.parts)
    if loop:
        keys = needed_by(reading.parts[loop[0]])[loop[1]]
        message = f"parts wait for each other: {' -> '.join(loop)}"
        yield reading.problem("part-loop", ("parts", loop[0], *keys), message, "place one of them by lengths alone")
