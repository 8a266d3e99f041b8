"""Solids and the few operations done on them, each checked: the kernel can return a wrong shape in silence.

`KernelFault` is raised where an operation gives anything but one valid solid of a volume that can be
right; the builder turns it into a problem that names the part and the feature.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import cast

import cadquery as cq
import numpy as np
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.BRepLib import BRepLib
from OCP.gp import gp_Trsf

from model.brep import CARRIED, made_once, pieces_once
from model.frames import Matrix, Vector, location, matrix_of, mirror_matrix, placing
from model.once import once
from plans.sides import Axis
from plans.units import System, shown

REACH = 5000.0  # mm; half spaces and unfinished blanks end here: larger than any piece of furniture
VOLUME_NOISE = 1e-3  # mm3
SMOOTH_ANGLE = 1e-4  # radians two faces may turn at an edge that still counts as smooth


class KernelFault(Exception):
    """The kernel did not give one valid solid; `reason` is for the maker, its lengths written with `spell`."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason

    def said(self, units: System) -> str:
        """The reason with its lengths in the units of the design."""
        return _MARKED.sub(lambda found: shown(float(found[1]), units), self.reason)


_MARKED = re.compile("\u27e6([^\u27e7]*)\u27e7")


def spell(mm: float) -> str:
    """A length (mm) in the words of a fault: it is written in the units of the design when the maker is told."""
    return f"\u27e6{float(mm)!r}\u27e7"


@dataclass(frozen=True)
class Plane:
    """A plane by a point on it and its unit normal."""

    point: Vector
    normal: Vector

    def height(self, point: Vector) -> float:
        """Distance of `point` from the plane, positive on the side of the normal."""
        return float(np.dot(np.asarray(point) - self.point, self.normal))


def vector(point: Vector | tuple[float, float, float]) -> cq.Vector:
    """A point or direction as the kernel's own."""
    return cq.Vector(float(point[0]), float(point[1]), float(point[2]))


def array(point: cq.Vector) -> Vector:
    """The kernel's own vector as numbers."""
    return np.array(point.toTuple())


def one_solid(shape: cq.Shape, what: str) -> cq.Solid:
    """The single valid solid in `shape`; raises KernelFault where there is none, or more than one."""
    return sound([shape] if isinstance(shape, cq.Solid) else shape.Solids(), what)


def sound(solids: Sequence[cq.Solid], what: str) -> cq.Solid:
    """The one of some solids; raises KernelFault where it is not valid, or there is none, or more than one."""
    if len(solids) != 1:
        raise KernelFault(f"{what} leaves {'nothing' if not solids else f'{len(solids)} pieces'}")
    solid = solids[0]
    if not solid.isValid() or volume(solid) <= VOLUME_NOISE:
        raise KernelFault(f"{what} does not give a sound solid")
    return solid


def cut(
    solid: cq.Solid,
    tools: Iterable[cq.Shape],
    what: str,
    *,
    must_change: bool = True,
    near: float | None = None,
    in_turn: bool = False,
) -> cq.Solid:
    """`solid` less all `tools`. With `must_change`, tools that take nothing away are a fault.

    What lies within `near` (mm) counts as touching: tools swept along a free curve lie on it no better than that.
    Tools that lie in each other are better taken away in turn: together they are cut with one another too.
    """
    cutters = list(tools)
    return made_once(
        "cut",
        [solid, *cutters],
        lambda: _cut(solid, cutters, what, must_change, near, in_turn),
        (must_change, near, in_turn),
    )


def _cut(
    solid: cq.Solid, cutters: list[cq.Shape], what: str, must_change: bool, near: float | None, in_turn: bool
) -> cq.Solid:
    before = volume(solid)
    left: cq.Shape = solid
    for some in ([tool] for tool in cutters) if in_turn else [cutters]:
        left = left.cut(*some, tol=near)
    result = one_solid(left, what)
    after = volume(result)
    least = before - sum(volume(tool) for tool in cutters) - VOLUME_NOISE
    if after < least or after > before + VOLUME_NOISE:
        raise KernelFault(f"{what} gives a solid of the wrong volume")
    if must_change and before - after <= VOLUME_NOISE:
        raise KernelFault(f"{what} takes nothing away")
    return result


def fuse(solid: cq.Solid, other: cq.Shape, what: str) -> cq.Solid:
    """`solid` and `other` as one, without seams on faces that run on."""

    def make() -> cq.Solid:
        result = one_solid(solid.fuse(other).clean(), what)
        if volume(result) < volume(solid) - VOLUME_NOISE:
            raise KernelFault(f"{what} gives a solid of the wrong volume")
        return result

    return made_once("fuse", [solid, other], make)


def common(a: cq.Shape, b: cq.Shape) -> list[cq.Solid]:
    """The solids that `a` and `b` share; none where they only touch."""

    def make() -> list[cq.Shape]:
        return [solid for solid in a.intersect(b).Solids() if solid.Volume() > VOLUME_NOISE]

    return pieces_once("common", [a, b], make)


def less(shape: cq.Shape, *tools: cq.Shape) -> list[cq.Solid]:
    """What is left of a shape without the tools, in as many pieces as that is."""
    return pieces_once("less", [shape, *tools], lambda: shape.cut(*tools).Solids())


def box(low: Vector, high: Vector) -> cq.Solid:
    """A box between two corners (mm)."""
    size = np.asarray(high) - np.asarray(low)
    return cq.Solid.makeBox(float(size[0]), float(size[1]), float(size[2]), vector(low))


def bar(low: Vector, high: Vector, along: int, start: Plane, end: Plane) -> cq.Solid:
    """A bar along axis number `along` between two planes that cross it; `low` and `high` bound its section (mm).

    Built from its six faces: sawing a block with half spaces gives the same and takes three times as long.
    """
    across = [number for number in range(3) if number != along]
    section = [(low, low), (high, low), (high, high), (low, high)]
    corners: list[list[cq.Vector]] = []
    for plane in (start, end):
        ring = []
        for u, v in section:
            point = np.zeros(3)
            point[across[0]], point[across[1]] = u[across[0]], v[across[1]]
            point[along] = -plane.height(point) / float(plane.normal[along])
            ring.append(vector(point))
        corners.append(ring)
    rings = [*corners, *([corners[0][n], corners[0][n - 1], corners[1][n - 1], corners[1][n]] for n in range(4))]
    faces = [cq.Face.makeFromWires(cq.Wire.makePolygon(ring, close=True)) for ring in rings]
    return cq.Solid.makeSolid(cq.Shell.makeShell(faces))


def turned(profile: list[tuple[float, float]], what: str) -> cq.Solid:
    """What a lathe makes of a profile, radius and height from its first point to its last, about the z axis (mm)."""
    (_, bottom), (_, top) = profile[0], profile[-1]
    outline = [cq.Vector(radius, 0.0, height) for radius, height in [(0.0, bottom), *profile, (0.0, top)]]
    wire = cq.Wire.makePolygon(outline, close=True)
    return one_solid(cq.Solid.revolve(wire, [], 360.0, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1)), what)


def beyond(plane: Plane) -> cq.Solid:
    """Everything on the far side of `plane` (where its normal points), as a very large block."""
    x = np.cross(plane.normal, [1.0, 0.0, 0.0])
    if np.linalg.norm(x) < 0.5:
        x = np.cross(plane.normal, [0.0, 1.0, 0.0])
    base = cq.Plane(origin=vector(plane.point), xDir=vector(x), normal=vector(plane.normal))
    block = cq.Solid.makeBox(4 * REACH, 4 * REACH, 2 * REACH, cq.Vector(-2 * REACH, -2 * REACH, 0))
    return block.moved(base.location)


def holds(solid: cq.Shape, point: cq.Vector) -> bool:
    """Whether a point lies inside a solid or on it."""
    return bool(cq.Solid(solid.wrapped).isInside(point, 1e-6))


def carried(shape: cq.Shape, matrix: Matrix) -> cq.Shape:
    """A shape carried by a 4 x 4 rigid `matrix`, which may mirror it; it remembers what it was made of."""
    if np.linalg.det(matrix[:3, :3]) > 0:
        there = shape.moved(location(matrix))
    else:
        trsf = gp_Trsf()
        trsf.SetValues(*(float(value) for value in matrix[:3, :].flatten()))
        there = cq.Shape.cast(BRepBuilderAPI_Transform(shape.wrapped, trsf, True).Shape())
    there.__dict__[CARRIED] = (shape, matrix)
    return there


def mirrored(solid: cq.Solid, axis: Axis) -> cq.Solid:
    """The mirror image in the plane through the origin square to `axis`; it remembers what it was made of."""
    return cast(cq.Solid, carried(solid, placing(mirror_matrix(axis), np.zeros(3))))


def placed(shape: cq.Shape, *places: cq.Location) -> cq.Shape:
    """A shape moved to a place, then on to others; it remembers what it was made of."""
    for place in places:
        there = shape.moved(place)
        there.__dict__[CARRIED] = (shape, matrix_of(place))
        shape = there
    return shape


@once
def volume(shape: cq.Shape) -> float:
    """Volume in mm3, worked out once for a shape."""
    return float(shape.Volume())


def tell_smooth_edges(solid: cq.Solid) -> cq.Solid:
    """The same solid, its edges marked where two faces run on into each other: a cut leaves no such mark."""
    BRepLib.EncodeRegularity_s(solid.wrapped, SMOOTH_ANGLE)
    return solid


def vertices(shape: cq.Shape) -> Vector:
    """Corner points (n x 3)."""
    return np.array([vertex.toTuple() for vertex in shape.Vertices()])


def along_circle(edge: cq.Edge, count: int) -> Vector:
    """Points spread evenly along an arc of a circle, its ends among them (count x 3)."""
    curve = BRepAdaptor_Curve(edge.wrapped)
    steps = np.linspace(curve.FirstParameter(), curve.LastParameter(), count)
    return np.array([curve.Value(float(step)).Coord() for step in steps])


def flat_faces(shape: cq.Shape) -> list[tuple[cq.Face, Plane]]:
    """The flat faces, each with its plane; the normal points out of the solid."""
    found = []
    for face in shape.Faces():
        if face.geomType() == "PLANE":
            found.append((face, Plane(array(face.Center()), array(face.normalAt()))))
    return found


def level_points(shape: cq.Shape, level: float) -> Vector:
    """Where the edges of `shape` cross the height `level` (n x 3); curved edges are followed in small steps."""
    found = []
    for edge in shape.Edges():
        steps = [0.0, 1.0] if edge.geomType() == "LINE" else [i / 64 for i in range(65)]
        points = [array(edge.positionAt(step)) for step in steps]
        for a, b in itertools.pairwise(points):
            found.extend(_crossing(a, b, level))
    return np.array(found).reshape(-1, 3)


def _crossing(a: Vector, b: Vector, level: float) -> list[Vector]:
    touching = [p for p in (a, b) if abs(p[2] - level) < 1e-7]
    if touching or (a[2] - level) * (b[2] - level) > 0:
        return touching
    return [a + (b - a) * (level - a[2]) / (b[2] - a[2])]


def long_hole(
    mouth: Vector, inward: Vector, ahead: Vector, long: float, wide: float, deep: float, clear: float
) -> cq.Solid:
    """A block with half-round ends: `long` over all along `ahead`, from `clear` outside its mouth to `deep` inward.

    All in mm.

    Made in one piece: where bored holes are joined to a slot, chance decides where their round faces are split.
    """
    aside = np.cross(inward, ahead)
    base, radius = mouth - inward * clear, wide / 2
    half = ahead * (long - wide) / 2
    corners = [vector(base + half * way + aside * radius * hand) for way, hand in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    right, left = vector(base + half + ahead * radius), vector(base - half - ahead * radius)
    edges = [
        cq.Edge.makeThreePointArc(corners[1], right, corners[2]),
        cq.Edge.makeThreePointArc(corners[3], left, corners[0]),
    ]
    if long - wide > 1e-6:
        edges += [cq.Edge.makeLine(corners[0], corners[1]), cq.Edge.makeLine(corners[2], corners[3])]
    return cq.Solid.extrudeLinear(cq.Wire.assembleEdges(edges), [], vector(inward * (deep + clear)))
