"""The outlines of flat faces of a solid, taken from the kernel: lines and arcs as they are, free curves by arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import cadquery as cq
import numpy as np
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Line
from OCP.TopAbs import TopAbs_REVERSED
from OCP.TopoDS import TopoDS

from model import kernel
from model.frames import Vector
from model.loops import Flat, Loop, Stretch, joined
from model.once import once
from model.piece import Part

NEAR = 2e-3  # mm; an arc that stands for a piece of a free curve keeps this near to it
MOST_HALVINGS = 12
SQUARE_ON = 1e-6  # how far from 1 the cosine of a face that is seen square on may be
LEVEL = 1e-3  # mm; faces no further apart than this lie in one plane


@dataclass(frozen=True)
class Lie:
    """How a part lies on paper: unit vectors of its standing frame to the page's right, its top and its reader."""

    right: Vector
    up: Vector
    towards: Vector

    def at(self, point: Vector) -> Flat:
        """Where a point of the standing frame falls."""
        return float(point @ self.right), float(point @ self.up)


@dataclass(frozen=True)
class FaceOutline:
    """One flat face: its rim, what is open in it, how far towards the reader it lies (mm), and its area (mm2)."""

    rim: Loop
    openings: tuple[Loop, ...]
    height: float
    area: float


@once
def _flat_faces(part: Part) -> list[tuple[cq.Face, kernel.Plane]]:
    return kernel.flat_faces(part.sharp)


def faces_towards(part: Part, lie: Lie) -> list[FaceOutline]:
    """The flat faces of the sharp body that are seen square on, the highest first."""
    seen = [
        face_outline(face, lie)
        for face, plane in _flat_faces(part)
        if float(plane.normal @ lie.towards) > 1.0 - SQUARE_ON
    ]
    return sorted(seen, key=lambda face: (-round(face.height, 3), -face.area))


def section(part: Part, lie: Lie) -> list[FaceOutline]:
    """The faces that a plane through the middle of the part, square to the view, cuts out of it."""
    box = part.sharp.BoundingBox()
    middle = np.array(box.center.toTuple())
    plane = cq.Plane(origin=kernel.vector(middle), xDir=kernel.vector(lie.right), normal=kernel.vector(lie.towards))
    sheet = cq.Face.makePlane(2 * box.DiagonalLength, 2 * box.DiagonalLength, plane.origin, plane.zDir)
    return [face_outline(face, lie) for face in part.sharp.intersect(sheet).Faces()]


def face_outline(face: cq.Face, lie: Lie) -> FaceOutline:
    """The outline of a flat face that is seen square on."""
    rim = _loop(face.outerWire(), face, lie).turned_left()
    openings = tuple(_loop(wire, face, lie).turned_left() for wire in face.innerWires())
    return FaceOutline(rim, openings, float(kernel.array(face.Center()) @ lie.towards), face.Area())


def _loop(wire: cq.Wire, face: cq.Face, lie: Lie) -> Loop:
    """A wire of a face, edge after edge."""
    stretches: list[Stretch] = []
    explorer = BRepTools_WireExplorer(wire.wrapped, face.wrapped)
    while explorer.More():
        edge = TopoDS.Edge_s(explorer.Current())
        found = list(_stretches(BRepAdaptor_Curve(edge), lie))
        if edge.Orientation() == TopAbs_REVERSED:
            found = [Stretch(s.end, s.start, -s.bulge) for s in reversed(found)]
        stretches += found
        explorer.Next()
    return joined(stretches)


def _stretches(curve: BRepAdaptor_Curve, lie: Lie) -> Iterator[Stretch]:
    """One edge, the way its curve runs."""
    first, last = curve.FirstParameter(), curve.LastParameter()

    def at(t: float) -> Flat:
        point = curve.Value(t)
        return lie.at(np.array((point.X(), point.Y(), point.Z())))

    if curve.GetType() == GeomAbs_Line:
        yield Stretch(at(first), at(last))
    elif curve.GetType() == GeomAbs_Circle:
        pieces = max(1, math.ceil((last - first) / math.pi - 1e-9))  # a bulge cannot say more than half a turn well
        step = (last - first) / pieces
        for n in range(pieces):
            a = first + n * step
            yield arc_through(at(a), at(a + step / 2), at(a + step))
    else:
        parts = 8  # a curve that bends both ways must not pass for straight by its middle
        step = (last - first) / parts
        for n in range(parts):
            yield from _by_arcs(at, first + n * step, first + (n + 1) * step, MOST_HALVINGS)


def _by_arcs(at, start: float, end: float, halvings: int) -> Iterator[Stretch]:  # type: ignore[no-untyped-def]
    """Arcs that keep within `NEAR` of a curve, each through the curve's own points."""
    middle = (start + end) / 2
    arc = arc_through(at(start), at(middle), at(end))
    probes = (at(start + (end - start) * share) for share in (0.125, 0.25, 0.375, 0.625, 0.75, 0.875))
    if halvings == 0 or all(_off(arc, probe) < NEAR for probe in probes):
        yield arc
        return
    yield from _by_arcs(at, start, middle, halvings - 1)
    yield from _by_arcs(at, middle, end, halvings - 1)


def arc_through(a: Flat, b: Flat, c: Flat) -> Stretch:
    """The arc from `a` through `b` to `c`; a straight line where they lie on one, to 1e-7 mm."""
    chord = math.dist(a, c)
    if chord < 1e-12:
        return Stretch(a, c)
    (dx, dy), (mx, my) = (c[0] - a[0], c[1] - a[1]), (b[0] - a[0], b[1] - a[1])
    off = (mx * dy - my * dx) / chord  # of b from the chord, positive to the right of it: the arc then turns left
    if abs(off) < 1e-7:
        return Stretch(a, c)
    # the angle a half turns through is seen from b: tangent of a quarter from the angle at b
    (px, py), (qx, qy) = (a[0] - b[0], a[1] - b[1]), (c[0] - b[0], c[1] - b[1])
    seen = math.atan2(abs(px * qy - py * qx), px * qx + py * qy)
    return Stretch(a, c, math.copysign(math.tan((math.pi - seen) / 2), off))


def _off(arc: Stretch, point: Flat) -> float:
    """How far a point lies from the line or circle of an arc (mm)."""
    if arc.is_round:
        return abs(math.dist(point, arc.centre) - arc.radius)
    (x0, y0), (x1, y1) = arc.start, arc.end
    return abs((x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)) / max(arc.chord, 1e-12)
