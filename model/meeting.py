"""Where two parts lie face against face, and places in a row along it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from model.body import Body
from model.frames import Vector, axis_vector
from model.kernel import KernelFault, spell
from model.overlap import Patch, contact_patches
from plans.sides import AXES


@dataclass(frozen=True)
class Meeting:
    """One face where two parts meet (piece frame): `along` is its longer way, `across` the other."""

    of: Body
    into: Body
    centre: Vector
    inward: Vector  # out of `of`, into `into`
    along: Vector
    across: Vector
    length: float
    width: float

    def row(self, count: int, from_ends: float | None) -> list[Vector]:
        """Places along the middle of the face, evenly spread or between two that stand `from_ends` of it (mm)."""
        if from_ends is None or count == 1:
            steps = [((i + 0.5) / count - 0.5) * self.length for i in range(count)]
        else:
            if 2 * from_ends >= self.length:
                raise KernelFault(f"`from ends` leaves no room for a row on a face {spell(self.length)} long")
            steps = [float(s) for s in np.linspace(from_ends, self.length - from_ends, count) - self.length / 2]
        return [self.centre + self.along * step for step in steps]


def meetings(first: Iterable[Body], second: list[Body], least: float) -> list[Meeting]:
    """Every face where a part of the first kind lies on one of the second that is at least `least` mm wide."""
    found = [
        _meeting(of, into, patch)
        for of in first
        for into in second
        if of is not into
        for patch in contact_patches(of.mesh(), into.mesh())
    ]
    return [meeting for meeting in found if meeting.width >= least]


def _meeting(of: Body, into: Body, patch: Patch) -> Meeting:
    inward = patch.normal
    along = max((_flat(of, number, inward) for number in range(3)), key=lambda way: _reach(patch, way))
    along = along / np.linalg.norm(along)
    if float(along.sum()) < 0:
        along = -along
    across = np.cross(inward, along)
    heights = [patch.outline @ way for way in (along, across)]
    middles = [float(h.max() + h.min()) / 2 for h in heights]
    centre = along * middles[0] + across * middles[1] + inward * float(patch.centroid @ inward)
    return Meeting(of, into, centre, inward, along, across, float(np.ptp(heights[0])), float(np.ptp(heights[1])))


def _flat(body: Body, number: int, inward: Vector) -> Vector:
    """An axis of a part, laid flat on the face where it meets another; nothing left of one that stands square to it."""
    axis = body.at[:3, :3] @ axis_vector(AXES[number])
    flat: Vector = axis - inward * float(axis @ inward)
    return flat


def _reach(patch: Patch, way: Vector) -> float:
    size = float(np.linalg.norm(way))
    return float(np.ptp(patch.outline @ way)) / size if size > 0.5 else 0.0
