"""Where each part stands: every direction settled once, and no part waiting for itself."""

from collections.abc import Iterator

from plans.checks.places import said_of, said_once, terms_along
from plans.checks.reading import Reading
from plans.checks.repeats import check_mirror, copies_in_one_place
from plans.order import assembly_of, named_at, needed_by, sort_nodes
from plans.problems import Problem
from plans.sides import AXES, SIDE_AXIS, SIDES, Axis, sides_of
from plans.spec import PartSpec


def check_directions(reading: Reading) -> Iterator[Problem]:
    """Directions settled twice or not at all, sizes said twice or not at all, sides of the wrong direction, loops."""
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
        yield from _across(reading, name, part)
        yield from _sides_fit(reading, name, part)
        yield from _gaps(reading, name, part)
        yield from _mirrors(reading, name, part)
        cut = {axis for axis in AXES if part.size(axis) is None and _cut_at_both_ends(part, axis)}
        yield from copies_in_one_place(reading, part.repeat, cut, ("parts", name))
    yield from _loops(reading)


def _cut_at_both_ends(part: PartSpec, axis: Axis) -> bool:
    return all(side in part.cut_to for side in sides_of(axis))


def _settled(reading: Reading, name: str, part: PartSpec, axis: Axis) -> Iterator[Problem]:
    path = ("parts", name, "where")
    said = said_of(part.where, axis)
    yield from said_once(reading, path, part.where, axis)
    between = part.repeat is not None and part.repeat.between is not None and part.repeat.along == axis
    if between and said:
        message = f"{axis} is settled twice, by `{said[0]}` and by `repeat: {{between: ...}}`"
        yield reading.problem("position-twice", (*path, said[0]), message, "keep one of them", key=True)
    if not said and not between and not _cut_at_both_ends(part, axis):
        low, high = sides_of(axis)
        message = f"nothing says where it stands {axis}"
        hint = f"add `{low}`, `{high}` or `centred: {axis}`"
        yield reading.problem("position-missing", path, message, hint, key=True)


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


def _across(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    """Width and thickness: stated, or between what both sides are cut to."""
    for key, axis in (("width", part.wide), ("thickness", part.thick)):
        low, high = sides_of(axis)
        if part.size(axis) is None and not _cut_at_both_ends(part, axis):
            message = f"nothing says what its {key} is"
            hint = f"add `{key}`, or say in `cut to` what both sides, {low} and {high}, are cut to"
            yield reading.problem("size-missing", ("parts", name), message, hint, key=True)
    if part.sheet is not None and part.thickness is None:
        message = f"{part.sheet} is as thick as it comes, and is not cut to a thickness"
        yield reading.problem("size-missing", ("parts", name), message, "add the `thickness` of the sheet", key=True)


def _sides_fit(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    for side in SIDES:
        yield from terms_along(reading, ("parts", name, "where", side), getattr(part.where, side), SIDE_AXIS[side])
    yield from terms_along(reading, ("parts", name, "where", "measured at"), part.where.measured_at, "up-down")
    for side, target in part.cut_to.items():
        yield from terms_along(reading, ("parts", name, "cut to", side), target.level, SIDE_AXIS[side])
        if SIDE_AXIS[side] == part.thick and part.thickness is not None:
            message = f"{side} is a face of it (it is thick {part.thick}), and its thickness is stated"
            hint = "keep the `thickness`, or leave it out and cut both faces to something"
            yield reading.problem("wrong-side", ("parts", name, "cut to", side), message, hint, key=True)


def _gaps(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    path = ("parts", name, "gap")
    if set(part.gap) == set(SIDES):  # one length for every cut
        if not part.cut_to:
            message = "it is cut to nothing, so that there is no gap to leave"
            yield reading.problem("wrong-side", path, message, "say in `cut to` what it ends short of", key=True)
        return
    for side in part.gap:
        if side not in part.cut_to:
            message = f"its {side} is cut to nothing, so that there is no gap to leave there"
            hint = f"say in `cut to` what the {side} ends short of"
            yield reading.problem("wrong-side", (*path, side), message, hint, key=True)


def _mirrors(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    own = assembly_of(reading.assemblies, name)
    lead = None if own is None else reading.assemblies[own].lead
    middle = "the piece" if lead in (None, name) else f"the {lead}"
    yield from check_mirror(reading, part.mirror, part.where, ("parts", name), middle)


def _loops(reading: Reading) -> Iterator[Problem]:
    for name, part in reading.parts.items():
        if name in (needs := needed_by(part)):
            message = f"it cannot be placed by, follow or be cut to {name}: that is itself"
            yield reading.problem("part-meets-itself", ("parts", name, *needs[name]), message, "name another part")
    _, loop = sort_nodes(reading.parts, reading.assemblies)
    if loop:
        path = named_at(reading.parts, reading.assemblies, loop)
        said = " -> ".join(name if section == "parts" else f"the assembly {name}" for section, name in loop)
        message = f"parts wait for each other: {said}"
        yield reading.problem("part-loop", path, message, "place one of them by lengths alone")
