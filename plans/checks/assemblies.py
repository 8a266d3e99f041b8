"""Parts placed as one: each part in one assembly, the whole set once in a direction, one way to open."""

from collections.abc import Iterator

from plans.checks.places import said_of, said_once, terms_along
from plans.checks.reading import Reading
from plans.checks.repeats import check_mirror, check_repeat
from plans.fixings import ButtHinge
from plans.order import assembly_of, needed_by_assembly
from plans.placing import Assembly, Opens
from plans.problems import Problem
from plans.scope import PART_NAME
from plans.sides import AXES, SIDE_AXIS, SIDES
from plans.source import KeyPath
from plans.suggest import listed


def check_assemblies(reading: Reading) -> Iterator[Problem]:
    """Every assembly of the design."""
    for name, made in reading.assemblies.items():
        path = ("assemblies", name)
        if not PART_NAME.fullmatch(name):
            message = f"an assembly cannot be called '{name}'"
            hint = "use letters, digits and single blanks, beginning with a letter"
            yield reading.problem("bad-name", path, message, hint, key=True)
        for number, part in enumerate(made.parts):
            first = assembly_of(reading.assemblies, part)
            if first is not None and first != name:
                message = f"{part} is a part of the {first} already"
                yield reading.problem("assembly-twice", (*path, "parts", number), message, "keep it in one of the two")
        yield from _set(reading, made, path)
        yield from check_repeat(reading, made.repeat, path)
        yield from check_mirror(reading, made.mirror, made.where, path)
        if made.opens is not None:
            yield from _opens(reading, made, made.opens, (*path, "opens"))


def _set(reading: Reading, made: Assembly, path: KeyPath) -> Iterator[Problem]:
    for part, keys in needed_by_assembly(made).items():
        if part in made.parts:
            message = f"it cannot be set by {part}, which is a part of it"
            yield reading.problem("part-meets-itself", (*path, *keys), message, "name a part outside of it")
    if made.where is None:
        return
    at = (*path, "where")
    for axis in AXES:
        yield from said_once(reading, at, made.where, axis)
        between = made.repeat is not None and made.repeat.between is not None and made.repeat.along == axis
        said = said_of(made.where, axis)
        if between and said:
            message = f"{axis} is settled twice, by `{said[0]}` and by `repeat: {{between: ...}}`"
            yield reading.problem("position-twice", (*at, said[0]), message, "keep one of them", key=True)
    for side in SIDES:
        yield from terms_along(reading, (*at, side), getattr(made.where, side), SIDE_AXIS[side])


def _opens(reading: Reading, made: Assembly, opens: Opens, path: KeyPath) -> Iterator[Problem]:
    """Pulled out to one side, or swung by an angle towards a side about something."""
    swung = [key for key in ("angle", "towards", "about") if getattr(opens, key) is not None]
    hint = "write `{front: 300}` for what is pulled out, `{towards: top, angle: 95}` for what swings"
    if len(opens.pulled) + bool(swung) != 1:
        said = [f"`{key}`" for key in (*opens.pulled, *swung)]
        message = f"{' and '.join(said)} cannot stand together" if said else "nothing says how it opens"
        yield reading.problem("opens-needs-one", path, message, hint, key=True)
        return
    for key in ("angle", "towards"):
        if swung and key not in swung:
            yield reading.problem("missing-key", path, f"`{key}` is missing", hint, key=True)
    if not swung:
        return
    if opens.about is not None and opens.towards is not None:
        turns = {SIDE_AXIS[side] for side in opens.about}
        if SIDE_AXIS[opens.towards] not in turns:
            message = f"what turns about the {' '.join(opens.about)} does not swing towards the {opens.towards}"
            instead = listed(side for side in SIDES if SIDE_AXIS[side] in turns)
            yield reading.problem("wrong-side", (*path, "towards"), message, f"use {instead}")
    if opens.about is None and not _hung(reading, made):
        message = "it hangs on no hinge, and nothing says what it turns about"
        yield reading.problem("missing-key", path, message, "add `about`, as in `about: back bottom`", key=True)


def _hung(reading: Reading, made: Assembly) -> bool:
    """Whether a hinge joins a part of the assembly to one outside of it."""
    hinges = [fixing for fixing in reading.fixings.values() if isinstance(fixing, ButtHinge)]
    return any((hinge.of in made.parts) != (hinge.on in made.parts) for hinge in hinges)
