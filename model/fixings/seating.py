"""Where fixings sit: the strips over which two parts touch, and the ways along and across them. Piece frame, mm."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from model.body import Body
from model.frames import Matrix, Vector, apply, axis_vector, placing
from model.kernel import KernelFault, spell
from model.overlap import Patch, contact_patches

LONGER = 1.2  # a strip this much longer across the grain is followed that way
INSIDE = 1e-3  # mm from the face, where wood is measured from


@dataclass(frozen=True)
class Seat:
    """One strip where `upper` and `lower` touch; `normal` points from the upper into the lower part."""

    upper: Body
    lower: Body
    normal: Vector
    along: Vector  # the long way of the strip
    middle: Vector
    length: float
    width: float
    outline: Vector  # corners of the strip, K x 3
    gap: float = 0.0  # between the two faces

    @property
    def across(self) -> Vector:
        """The narrow way of the strip."""
        across: Vector = np.cross(self.normal, self.along)
        return across

    def row(self, count: int, inset: float | None = None) -> list[Vector]:
        """`count` points along the middle, spread evenly, or from `inset` mm off the ends."""
        if inset is None:
            steps = [((i + 0.5) / count - 0.5) * self.length for i in range(count)]
        else:
            reach = self.length - 2 * inset
            if count > 1 and reach <= 0:
                raise KernelFault(f"the strip is {spell(self.length)} long, too short for {spell(inset)} at both ends")
            steps = [(i / (count - 1) - 0.5) * reach if count > 1 else 0.0 for i in range(count)]
        return [self.middle + self.along * step for step in steps]


def seats(uppers: list[Body], lowers: list[Body], least: float, reach: float = 0.25) -> Iterator[Seat]:
    """Every strip at least `least` mm wide over which two of the parts touch (are within `reach` mm)."""
    for upper in uppers:
        for lower in lowers:
            if upper is lower:
                continue
            for patch in contact_patches(upper.mesh(), lower.mesh(), reach):
                if _width(patch) >= least:
                    yield _seat(upper, lower, patch)


def _width(patch: Patch) -> float:
    """The narrow way across a patch (mm): its area by its longest reach."""
    spread = np.linalg.norm(patch.outline[:, None, :] - patch.outline[None, :, :], axis=2).max()
    return float(patch.area / spread) if spread > 0 else 0.0


def _seat(upper: Body, lower: Body, patch: Patch) -> Seat:
    runs = [body.at[:3, :3] @ axis_vector(body.runs) for body in (upper, lower)]
    reaches = [float(np.ptp(patch.outline @ run)) for run in runs]
    along, length = runs[int(np.argmax(reaches))], max(reaches)
    for body in (upper, lower):  # where an end meets a face, the long way is the width of the one that ends
        wide = body.at[:3, :3] @ axis_vector(body.wide)
        if float(np.ptp(patch.outline @ wide)) > LONGER * length:
            along, length = wide, float(np.ptp(patch.outline @ wide))
    along = along - patch.normal * float(along @ patch.normal)
    along = along / np.linalg.norm(along)
    if float(along.sum()) < 0:
        along = -along
    width = float(np.ptp(patch.outline @ np.cross(patch.normal, along)))
    return Seat(upper, lower, patch.normal, along, patch.centroid, length, width, patch.outline, max(0.0, patch.gap))


def depth_behind(body: Body, point: Vector, direction: Vector) -> float:
    """How much wood of `body` lies between a point on its face and the open air, against `direction` (mm)."""
    return sum(end - begin for begin, end in body.wood(point - direction * INSIDE, -direction)) + INSIDE


def must_hold(lower: Body, point: Vector, direction: Vector, bite: float, what: str) -> None:
    """Refuse what would come out on the far side of the part it is driven into, `bite` mm deep."""
    wood = depth_behind(lower, point, -direction)
    if bite > wood - INSIDE:
        raise KernelFault(
            f"the {what} comes out of {lower.name}: it goes {spell(bite)} into it, and there is {spell(wood)} of wood"
        )


def frame(origin: Vector, z: Vector, x: Vector) -> Matrix:
    """The placing of a thing whose own z points along `z` and whose x is nearest to `x`."""
    z = z / np.linalg.norm(z)
    x = x - z * float(x @ z)
    x = x / np.linalg.norm(x)
    return placing(np.stack([x, np.cross(z, x), z], axis=1), origin)


def middle_of(body: Body) -> Vector:
    """The middle of a part's blank, in the piece."""
    return apply(body.at, body.blank.middle())
