"""Parts placed as one: the whole is set by its outermost sides, then repeated and mirrored."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from model.body import SIDE_WORD, Body, extents_of, mirrored, shifted
from model.frames import Vector, axis_vector
from model.kernel import KernelFault
from model.naming import SPOKEN
from model.piece import AssemblyMade
from model.placing import Standing, row
from plans.placing import Assembly, SetBy
from plans.sides import AXES, OPPOSITE, SIDE_AXIS, Axis, side_of, sides_of


@dataclass(frozen=True)
class _Copy:
    """One of the copies of an assembly: its parts by kind, its number along the row, the ways it is mirrored."""

    bodies: dict[str, list[Body]]
    number: int = 1
    mirrored: tuple[Axis, ...] = ()

    @property
    def every(self) -> Iterator[Body]:
        """All parts."""
        return (body for bodies in self.bodies.values() for body in bodies)

    def reach(self, axis: Axis) -> tuple[float, float]:
        """How far the whole reaches along a direction of the piece (mm)."""
        reaches = [extents_of(body.world(body.sharp)).of(axis) for body in self.every]
        return min(low for low, _ in reaches), max(high for _, high in reaches)

    def shifted(self, shift: Vector, number: int = 1) -> _Copy:
        """The same elsewhere."""
        return _Copy({kind: [shifted(b, shift, b.name) for b in some] for kind, some in self.bodies.items()}, number)

    def image(self, axis: Axis) -> _Copy:
        """The mirror image in the centre plane of the piece; what stood on the left now stands on the right."""
        images = {
            kind: [mirrored(body, axis, _swapped(body, axis)) for body in some] for kind, some in self.bodies.items()
        }
        return replace(self, bodies=images, mirrored=(*self.mirrored, axis))


def set_assembly(name: str, made: Assembly, standing: Standing) -> tuple[AssemblyMade, ...]:
    """Set an assembly whose parts stand as they were made, and copy it; the parts then stand in all their places."""
    one = _Copy({kind: standing.bodies[kind] for kind in made.parts})
    if made.where is not None:
        one = one.shifted(_way(one, made.where, standing))
    copies = [one]
    if made.repeat is not None:
        low, high = one.reach(made.repeat.along)
        shifts = row(made.repeat, low, high, standing)
        copies = [one.shifted(shift, number) for number, shift in enumerate(shifts, start=1)]
    for axis in made.mirror:
        copies += [copy.image(axis) for copy in copies]
    names = _names(name, made, copies)
    if len(copies) > 1:
        for copy, called in zip(copies, names, strict=True):
            for body in copy.every:
                body.name = f"{body.name} of {called}"
    for kind in made.parts:
        standing.add(kind, [body for copy in copies for body in copy.bodies[kind]])
    return tuple(
        AssemblyMade(called, name, tuple(body.name for body in copy.every), copy.mirrored)
        for copy, called in zip(copies, names, strict=True)
    )


def _way(one: _Copy, where: SetBy, standing: Standing) -> Vector:
    """How far an assembly has to be moved to stand where it is said to (mm); not at all where nothing is said."""
    way = np.zeros(3)
    for axis in AXES:
        reach = one.reach(axis)
        if axis in where.centred:
            other = where.centred[axis]
            middle = 0.0 if other is None else standing.middle(other, axis, None)
            way += axis_vector(axis) * (middle - sum(reach) / 2)
        for side, own in zip(sides_of(axis), reach, strict=True):
            stated = getattr(where, side)
            if stated is not None:
                way += axis_vector(axis) * (standing.value(stated) - own)
    return way


def _names(name: str, made: Assembly, copies: list[_Copy]) -> list[str]:
    """`drawer 2`, `door left`: by number along the row, and by the side of the piece that each stands on."""
    many = made.repeat is not None and made.repeat.count > 1
    names = []
    for copy in copies:
        sides = [str(side_of(axis, sum(copy.reach(axis)))) for axis in SPOKEN if axis in made.mirror]
        names.append(" ".join([name, *([str(copy.number)] if many else []), *sides]))
    if len(set(names)) < len(names):
        raise KernelFault(f"the {name} stands on the centre line, and its mirror image in the same place")
    return names


def _swapped(body: Body, axis: Axis) -> str:
    """The name of a part in the mirror image: the side words that it got by its place, turned about."""
    after = body.name.removeprefix(body.kind)
    return body.kind + SIDE_WORD.sub(
        lambda found: OPPOSITE[found[0]] if SIDE_AXIS[found[0]] == axis else found[0],  # type: ignore[index]
        after,
    )
