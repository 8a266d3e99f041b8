"""Curved and moulded edges, and turning: sides that can take them, and sizes there is wood for."""

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

from plans.checks.reading import Reading
from plans.checks.sides import an_end, long_sides, stops_at_ends
from plans.problems import Problem
from plans.shaping import Arc, Chamfer, Curve, RelievedEnds, Thumbnail, Turned
from plans.sides import SIDE_AXIS, SIDES
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import listed


def _arc(reading: Reading, part: PartSpec, path: KeyPath, arc: Arc) -> Iterator[Problem]:
    if arc.flat < 0 or (arc.flat and arc.bend == "crown"):
        message = "a crown has no flat ends" if arc.flat > 0 else "what stays flat cannot be below 0"
        yield reading.problem("wrong-size", (*path, "flat"), message, "leave `flat` out")


def _curve(reading: Reading, part: PartSpec, path: KeyPath, curve: Curve) -> Iterator[Problem]:
    yield from long_sides(reading, part, (*path, "edge"), [curve.edge])
    yield from an_end(reading, part, (*path, "from"), curve.start)
    for number, (one, other) in enumerate(pairwise(curve.through), start=1):
        if other.along <= one.along:
            message = f"it lies {reading.shown(other.along)} along, and the point before it {reading.shown(one.along)}"
            hint = "write the points in their order along the part"
            yield reading.problem("wrong-size", (*path, "through", number, "along"), message, hint)


def _relieved_ends(reading: Reading, part: PartSpec, path: KeyPath, relief: RelievedEnds) -> Iterator[Problem]:
    yield from long_sides(reading, part, (*path, "edge"), [relief.edge])
    for end in relief.ends:
        yield from an_end(reading, part, (*path, "ends"), end)
    if not 0 <= relief.level < relief.long:
        message = f"{reading.shown(relief.level)} level of {reading.shown(relief.long)} leaves nothing to slope"
        yield reading.problem("wrong-size", (*path, "level"), message, "make it less than `long`")


def _turned(reading: Reading, part: PartSpec, path: KeyPath, turned: Turned) -> Iterator[Problem]:
    if turned.start is not None:
        yield from an_end(reading, part, (*path, "from"), turned.start)
    listed_ones = len(turned.diameters) > 1 and turned.start is not None
    if (turned.diameter is not None) == listed_ones or (turned.diameter is not None and turned.diameters):
        message = "its diameters are not said in one way"
        hint = "say `diameter`, or `from` an end two or more `diameters`"
        yield reading.problem("size-needs-one", path, message, hint, key=True)
    most = min(part.width_at_most, part.thickness_at_most)
    sizes: list[tuple[KeyPath, float]] = [
        ((*path, "diameters", number, "diameter"), place.diameter) for number, place in enumerate(turned.diameters)
    ]
    if turned.diameter is not None:
        sizes.append(((*path, "diameter"), turned.diameter))
    for where, diameter in sizes:
        if diameter > most:
            message = f"{reading.shown(diameter)} cannot be turned from a part {reading.shown(most)} square"
            yield reading.problem("wrong-size", where, message, "make it thinner, or the part thicker")


def _thumbnail(reading: Reading, part: PartSpec, path: KeyPath, thumbnail: Thumbnail) -> Iterator[Problem]:
    for edge in thumbnail.edges:
        if SIDE_AXIS[edge] == SIDE_AXIS[thumbnail.face]:
            others = [s for s in SIDES if SIDE_AXIS[s] != SIDE_AXIS[thumbnail.face]]
            message = f"the {edge} is no edge of the {thumbnail.face}"
            yield reading.problem("wrong-side", (*path, "edges"), message, f"use {listed(others)}")
    yield from long_sides(reading, part, (*path, "face"), [thumbnail.face])


def _chamfer(reading: Reading, part: PartSpec, path: KeyPath, chamfer: Chamfer) -> Iterator[Problem]:
    yield from stops_at_ends(reading, (*path, "stop"), chamfer.stop, part.runs)


OUTLINE_CHECKS: dict[type, Callable[[Reading, PartSpec, KeyPath, Any], Iterator[Problem]]] = {
    Arc: _arc,
    Curve: _curve,
    RelievedEnds: _relieved_ends,
    Turned: _turned,
    Thumbnail: _thumbnail,
    Chamfer: _chamfer,
}
