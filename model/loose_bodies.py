"""Loose pieces of joints (dowels, loose tenons, keys and the like) as bodies: made when they are to be drawn.

They are no parts of the piece: lists count them by their sizes, and no check looks at them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import cadquery as cq
import numpy as np

from model import kernel
from model.cuts import Stuff
from model.frames import Vector, round_point
from model.meshes import Mesh, mesh_kept
from model.once import once
from model.piece import JointMade, LooseBody


@dataclass(frozen=True)
class LooseSolid:
    """One loose piece where it stands in the piece."""

    what: str
    body: LooseBody

    @cached_property
    def solid(self) -> cq.Solid:
        """Its solid."""
        start, way = np.array(self.body.outline[0]), np.array(self.body.way)
        if self.body.diameter:
            long = float(np.linalg.norm(way))
            return cq.Solid.makeCylinder(self.body.diameter / 2, long, kernel.vector(start), kernel.vector(way))
        rim = _rim([kernel.vector(np.array(point)) for point in self.body.outline], bowed=self.body.bowed)
        return kernel.one_solid(cq.Solid.extrudeLinear(rim, [], kernel.vector(way)), f"a {self.what}")

    @cached_property
    def mesh(self) -> Mesh:
        """Its triangles."""
        return mesh_kept(self.solid)

    @property
    def stuff(self) -> Stuff:
        """What it is made of, for it to be hatched."""
        way = np.array(self.body.way)
        thick_way = way / np.linalg.norm(way)
        if self.body.grain is None:
            return Stuff("other", thick_way, thick_way, 0.0)
        return Stuff("wood", np.array(self.body.grain), thick_way, 0.0)


def _rim(points: Sequence[cq.Vector], *, bowed: bool) -> cq.Wire:
    if not bowed:
        return cq.Wire.makePolygon(points, close=True)
    ends = [*points[::2], points[0]]
    arcs = zip(ends, points[1::2], ends[1:], strict=False)
    return cq.Wire.assembleEdges([cq.Edge.makeThreePointArc(*three) for three in arcs])


@once
def loose_solids(joint: JointMade) -> tuple[LooseSolid, ...]:
    """Every loose piece of a joint that has a shape of its own."""
    return tuple(LooseSolid(loose.what, body) for loose in joint.loose for body in loose.bodies)


def standing_rod(start: Vector, way: Vector, diameter: float) -> LooseBody:
    """A rod from a point of the piece, its grain along it."""
    return LooseBody((round_point(start),), round_point(way), round_point(way / np.linalg.norm(way)), diameter)


def standing_prism(outline: Sequence[Vector], way: Vector, grain: Vector | None, *, bowed: bool = False) -> LooseBody:
    """A prism over an outline in the piece; `bowed`: every other point of it is the middle of an arc."""
    fibres = None if grain is None else round_point(grain)
    return LooseBody(tuple(round_point(point) for point in outline), round_point(way), fibres, bowed=bowed)
