"""Finding the arrises of a part and making the cutter that eases one.

A cutter is a prism along the arris, standing a little outside both faces and past both ends: the
kernel's own fillet gives unsound solids on tapered parts (geometry notes in DEVELOPERS.md).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, nearest_side
from model.kernel import Plane
from plans.sides import SIDE_AXIS, SIDES, Side

Form = Literal["round", "flat", "hollow"]

OUTSIDE = 1.0  # mm a cutter stands clear of the faces
PAST = 5.0  # mm a cutter runs past the ends of its arris


@dataclass(frozen=True)
class Arris:
    """A straight convex edge between two flat faces: its ends and the outward normals of the faces."""

    start: Vector
    end: Vector
    first: Vector
    second: Vector
    sides: frozenset[Side]
    edge: cq.Edge


def arrises(body: Body, wanted: tuple[str, ...]) -> list[Arris]:
    """The arrises of the outline that are named by `wanted`."""
    found = []
    faces_of: dict[int, list[Vector]] = {}
    edges: dict[int, cq.Edge] = {}
    for face, plane in kernel.flat_faces(body.sharp):
        for edge in face.Edges():
            faces_of.setdefault(edge.hashCode(), []).append(plane.normal)
            edges[edge.hashCode()] = edge
    for key, normals in faces_of.items():
        sides = frozenset(nearest_side(normal) for normal in normals)
        if len(normals) != 2 or len(sides) != 2 or not _named(body, sides, wanted):
            continue
        edge = edges[key]
        start, end = kernel.array(edge.startPoint()), kernel.array(edge.endPoint())
        found.append(Arris(start, end, normals[0], normals[1], sides, edge))
    return found


def _named(body: Body, sides: frozenset[Side], wanted: tuple[str, ...]) -> bool:
    on_end = any(SIDE_AXIS[side] == body.runs for side in sides)
    for name in wanted:
        if name == "all" or (name == "ends" and on_end) or (name == "long" and not on_end):
            return True
        if frozenset(word for word in name.split() if word in SIDES) == sides:
            return True
    return False


def taken_off(arris: Arris, size: float, form: Form) -> float:
    """Volume a cutter takes off a free-standing arris (mm3): the corner less the sector of the round."""
    length = float(np.linalg.norm(arris.end - arris.start))
    turn = float(np.arccos(np.clip(arris.first @ arris.second, -1, 1)))  # how far the faces turn at the arris
    if form == "flat":
        return length * size * size * math.sin(math.pi - turn) / 2
    return length * size * size * (math.tan(turn / 2) - turn / 2)


def cutter(arris: Arris, size: float, form: Form) -> cq.Solid:
    """The prism that rounds an arris to radius `size`, hollows it, or cuts `size` off each face (mm)."""
    n1, n2 = arris.first, arris.second
    cosine = float(n1 @ n2)
    in_first = _unit(cosine * n1 - n2)
    in_second = _unit(cosine * n2 - n1)
    # half the angle inside the wood; the arc touches each face this far from the arris
    half = (np.pi - np.arccos(cosine)) / 2
    back = size / np.tan(half) if form == "round" else size
    origin = arris.start
    t1, t2 = origin + in_first * back, origin + in_second * back
    outer = origin + (n1 + n2) * OUTSIDE / (1 + cosine)
    corners = [t1, t1 + n1 * OUTSIDE, outer, t2 + n2 * OUTSIDE, t2]
    if form == "flat":
        return prism(arris, corners, cq.Edge.makeLine(kernel.vector(t2), kernel.vector(t1)))
    centre = t1 - n1 * size if form == "round" else origin
    middle = centre + _unit(n1 + n2) * (size if form == "round" else -size)
    return prism(arris, corners, cq.Edge.makeThreePointArc(kernel.vector(t2), kernel.vector(middle), kernel.vector(t1)))


def prism(arris: Arris, corners: Sequence[Vector], last: cq.Edge) -> cq.Solid:
    """The section of straight lines between `corners`, closed by `last`, run along an arris and past both its ends."""
    lines = [cq.Edge.makeLine(kernel.vector(a), kernel.vector(b)) for a, b in pairwise(corners)]
    profile = cq.Wire.assembleEdges([*lines, last])
    along = _unit(arris.end - arris.start)
    length = float(np.linalg.norm(arris.end - arris.start)) + 2 * PAST
    return cq.Solid.extrudeLinear(profile, [], kernel.vector(along * length)).moved(
        cq.Location(kernel.vector(-along * PAST))
    )


def stopped(tool: cq.Solid, arris: Arris, size: float, ends: Sequence[tuple[Vector, Vector]]) -> cq.Solid:
    """A flat cutter that leaves the wood at some ends: `ends` gives where the full flat stops, and the way on.

    From there it runs out at half a right angle: over a length of `size` along the arris.
    """
    for stop, onward in ends:
        n1, n2 = arris.first, arris.second
        cosine = float(n1 @ n2)
        t1, t2 = (stop + _unit(cosine * a - b) * size for a, b in ((n1, n2), (n2, n1)))
        tip = stop + onward * size
        normal = _unit(np.cross(t2 - t1, tip - t1))
        tool = kernel.one_solid(
            tool.cut(kernel.beyond(Plane(tip, normal if float(normal @ onward) > 0 else -normal))), "the stop"
        )
    return tool


def _unit(vector: Vector) -> Vector:
    return vector / np.linalg.norm(vector)
