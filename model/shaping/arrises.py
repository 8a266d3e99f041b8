"""Finding the arrises of a part: convex edges, straight or curved, by the sides that meet there."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import numpy as np
from OCP.TopAbs import TopAbs_FORWARD

from model import kernel
from model.body import Body
from model.frames import Vector, nearest_side
from plans.sides import SIDE_AXIS, SIDES, Side, sides_of

SMOOTH = 1e-3  # radians: faces that turn less at an edge run on into each other
NEAR = 0.05  # mm from an arris or past its end, where one looks for wood


@dataclass(frozen=True)
class Arris:
    """A convex edge between two faces, straight or curved: its ends and the outward normals of the faces.

    The normals are those at the start and, in `last`, at the end; `free` says whether the wood stops at the
    start and at the end, so that a cutter may run past.
    """

    start: Vector
    end: Vector
    first: Vector
    second: Vector
    last: tuple[Vector, Vector]
    free: tuple[bool, bool]
    sides: frozenset[Side]
    edge: cq.Edge

    @property
    def curved(self) -> bool:
        """Whether its line is anything but straight."""
        return bool(self.edge.geomType() != "LINE")

    @property
    def length(self) -> float:
        """Along its line (mm)."""
        return float(self.edge.Length())

    @property
    def middle(self) -> Vector:
        """The point halfway along it."""
        return kernel.array(self.edge.positionAt(0.5))


def arrises(body: Body, wanted: tuple[str, ...]) -> list[Arris]:
    """The arrises of the outline that are named by `wanted`; the round of a turned part belongs to all long sides."""
    found = []
    faces_of: dict[int, list[cq.Face]] = {}
    edges: dict[int, cq.Edge] = {}
    for face in body.sharp.Faces():
        for found_edge in face.Edges():
            edge = cq.Edge(found_edge.wrapped.Oriented(TopAbs_FORWARD))  # its ends and tangents then agree
            faces_of.setdefault(edge.hashCode(), []).append(face)
            edges[edge.hashCode()] = edge
    for key, faces in faces_of.items():
        edge = edges[key]
        if len(faces) != 2:
            continue
        sides = _sides(body, edge, faces)
        if sides and _named(body, sides, wanted) and _convex(body.sharp, edge, faces):
            found.append(_arris(body.sharp, edge, faces, sides))
    return found


def _arris(solid: cq.Solid, edge: cq.Edge, faces: list[cq.Face], sides: frozenset[Side]) -> Arris:
    start, end = kernel.array(edge.startPoint()), kernel.array(edge.endPoint())
    (first, second), last = _normals(edge, faces, 0.0), _normals(edge, faces, 1.0)
    free = tuple(
        not kernel.holds(solid, kernel.vector(place + onward * NEAR - (a + b) * NEAR / 10))
        for place, onward, (a, b) in (
            (start, -kernel.array(edge.tangentAt(0.0)), (first, second)),
            (end, kernel.array(edge.tangentAt(1.0)), last),
        )
    )
    return Arris(start, end, first, second, last, (free[0], free[1]), sides, edge)


def _normals(edge: cq.Edge, faces: list[cq.Face], share: float) -> tuple[Vector, Vector]:
    """The outward normals of both faces at a share of the way along their edge."""
    place = edge.positionAt(share)
    return kernel.array(faces[0].normalAt(place)), kernel.array(faces[1].normalAt(place))


def _sides(body: Body, edge: cq.Edge, faces: list[cq.Face]) -> frozenset[Side]:
    """The two sides that meet at an edge; empty where it lies within one side, or its faces run on smoothly."""
    normals = _normals(edge, faces, 0.5)
    sides = frozenset(nearest_side(normal) for normal in normals)
    if len(sides) != 2 or turn_between(*normals) < SMOOTH:
        return frozenset()
    if edge.IsClosed():
        return frozenset([*(side for side in sides if side in body.ends), *sides_of(body.wide), *sides_of(body.thick)])
    return sides


def _convex(solid: cq.Solid, edge: cq.Edge, faces: list[cq.Face]) -> bool:
    """Whether there is no wood a little way along the second face's inside and just above the first."""
    n1, n2 = _normals(edge, faces, 0.5)
    cosine = float(n1 @ n2)
    inward = unit(cosine * n1 - n2)
    place = kernel.array(edge.positionAt(0.5)) + (inward + n1 * (1 - cosine**2) ** 0.5 / 10) * NEAR
    return not kernel.holds(solid, kernel.vector(place))


def _named(body: Body, sides: frozenset[Side], wanted: tuple[str, ...]) -> bool:
    on_end = any(SIDE_AXIS[side] == body.runs for side in sides)
    for name in wanted:
        if name == "all" or (name == "ends" and on_end) or (name == "long" and not on_end):
            return True
        words = frozenset(word for word in name.split() if word in SIDES)
        if len(words) == 2 and words <= sides:
            return True
    return False


def turn_between(first: Vector, second: Vector) -> float:
    """How far two faces turn where they meet (radians)."""
    return float(np.arccos(np.clip(first @ second, -1, 1)))


def unit(vector: Vector) -> Vector:
    """The same direction, of length 1."""
    return vector / np.linalg.norm(vector)
