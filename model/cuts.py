"""A face that a plane cuts, as rings in the plane, and what the body is made of, for it to be hatched."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal, Protocol

import manifold3d
import numpy as np

from model.frames import Vector
from model.grain import grain, thick_axis
from model.piece import Part

TOUCHING = 0.6  # mm between cut faces that adjoin
LEAST = 1.0  # mm2: a smaller cut is none
HALVINGS, NEARLY = 12, 0.9  # to find how deep a face is, and how deep counts as deepest
END_GRAIN = 0.7  # cosine of the grain to the plane's normal from which its end is seen


class Seen(Protocol):
    """A plane as it is looked at: unit vectors of the piece."""

    @property
    def towards(self) -> Vector:
        """To the viewer."""

    @property
    def right(self) -> Vector:
        """The page's right."""

    @property
    def up(self) -> Vector:
        """The page's top."""


@dataclass(frozen=True)
class Stuff:
    """What something cut is made of: the way of its grain and of its thickness (piece), and how thick it is (mm)."""

    kind: Literal["wood", "sheet", "other"]
    grain: Vector
    thick_way: Vector
    thick: float

    def on_end(self, plane: Seen) -> bool:
        """Whether the fibres run through a plane rather than along it."""
        return abs(float(self.grain @ plane.towards)) > END_GRAIN


def stuff_of(part: Part) -> Stuff:
    """What a part is made of, as it stands in the piece."""
    kind: Literal["wood", "sheet", "other"] = "sheet" if part.spec.sheet else "wood" if part.spec.wood else "other"
    return Stuff(kind, grain(part), thick_axis(part), part.over_all[2])


@dataclass(frozen=True)
class Cut:
    """What a plane cuts of one body: closed rings (n x 2, mm in the plane), holes among them."""

    section: manifold3d.CrossSection

    @cached_property
    def rings(self) -> list[Vector]:
        """The outlines; a point lies inside where an odd number of them is round it."""
        return [np.asarray(ring, dtype=np.float64) for ring in self.section.to_polygons()]

    @cached_property
    def deep(self) -> float:
        """How far (mm) from its outline the deepest place of the face lies."""
        low, high = 0.0, float(np.ptp(np.concatenate(self.rings), axis=0).min()) / 2
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self._shrunk(middle).area() > 0 else (low, middle)
        return low

    @cached_property
    def deepest(self) -> tuple[float, float]:
        """A place about as deep inside the face as any, near its middle (mm in the plane)."""
        ring = max(self._shrunk(NEARLY * self.deep).to_polygons(), key=lambda ring: float(np.ptp(ring, axis=0).max()))
        at = ring[np.linalg.norm(ring - ring.mean(axis=0), axis=1).argmin()]
        return float(at[0]), float(at[1])

    def _shrunk(self, by: float) -> manifold3d.CrossSection:
        return self.section.offset(-by, manifold3d.JoinType.Miter)

    def adjoins(self, other: Cut) -> bool:
        """Whether the two cut faces touch."""
        grown = self.section.offset(TOUCHING, manifold3d.JoinType.Miter)
        return bool((grown ^ other.section).area() > LEAST * TOUCHING)
