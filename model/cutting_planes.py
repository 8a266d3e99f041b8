"""Where a piece is cut for its sections, what each plane cuts, and what is left standing behind it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import cadquery as cq
import manifold3d
import numpy as np

from model import kernel
from model.frames import Matrix, Vector, axis_vector
from model.grain import grain
from model.joints_alike import joints_alike
from model.kernel import Plane, placed
from model.piece import Part, Piece
from plans.sides import AXIS_NUMBER, Axis

OFF_FACES = 1.0  # mm a plane keeps from faces that are parallel to it: cut along a face, chance decides what is seen
TOUCHING = 0.6  # mm between cut faces that adjoin
LEAST = 1.0  # mm2: a smaller cut is none
MIDDLE_IS_BETTER = 0.75  # of the most that any plane shows: then the plane through the middle is taken
HALVINGS, NEARLY = 12, 0.9  # to find how deep a face is, and how deep counts as deepest
END_GRAIN = 0.7  # cosine of the grain to the plane's normal from which its end is seen


@dataclass(frozen=True)
class CuttingPlane:
    """A plane square to one direction of the piece, `at` mm along it; what is on the viewer's side is taken away."""

    letter: str
    axis: Axis
    at: float

    @property
    def towards(self) -> Vector:
        """To the viewer: from the right, or from the front."""
        return axis_vector(self.axis) * (-1.0 if self.axis == "front-back" else 1.0)

    @property
    def right(self) -> Vector:
        """The page's right, the piece upright."""
        return np.cross([0.0, 0.0, 1.0], self.towards)

    @property
    def frame(self) -> Matrix:
        """From the piece to the plane, 4 x 4: x to the page's right, y up, z to the viewer, 0 in the plane."""
        turn = np.eye(4)
        turn[:3, :3] = np.array([self.right, [0.0, 0.0, 1.0], self.towards])
        turn[2, 3] = -self.at * float(self.towards[AXIS_NUMBER[self.axis]])
        return turn


@dataclass(frozen=True)
class CutFace:
    """What a plane cuts of one part: closed rings (n x 2, mm in the plane), holes among them."""

    part: Part
    plane: CuttingPlane
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

    @property
    def shows_end_grain(self) -> bool:
        """Whether the fibres of the wood run through the plane rather than along it."""
        return abs(float(grain(self.part) @ self.plane.towards)) > END_GRAIN

    def direction(self, way: Vector) -> Vector:
        """How a direction of the piece lies in the plane (2)."""
        return np.array([way @ self.plane.right, way[2]])

    def adjoins(self, other: CutFace) -> bool:
        """Whether the two cut faces touch."""
        grown = self.section.offset(TOUCHING, manifold3d.JoinType.Miter)
        return bool((grown ^ other.section).area() > LEAST * TOUCHING)


def cutting_planes(piece: Piece) -> tuple[CuttingPlane, ...]:
    """A-A, seen from the right, and B-B, from the front: through the middle unless elsewhere shows much more."""
    return _best(piece, "A", "left-right"), _best(piece, "B", "front-back")


def _best(piece: Piece, letter: str, axis: Axis) -> CuttingPlane:
    number = AXIS_NUMBER[axis]
    reach = np.array([part.mesh.box[:, number] for part in piece.parts.values()])
    middle = float((reach.min() + reach.max()) / 2)
    places = dict.fromkeys(round(_off_faces(at, reach), 3) for at in (middle, *_joints_along(piece, number)))
    shown = {at: _shown(piece, CuttingPlane(letter, axis, at)) for at in places}
    first = next(iter(places))
    most = max(shown.values())
    best = first if shown[first] >= MIDDLE_IS_BETTER * most else next(at for at in places if shown[at] == most)
    return CuttingPlane(letter, axis, best + 0.0)


def _joints_along(piece: Piece, number: int) -> list[float]:
    """Where the distinct joints are, along one direction."""
    return [alike.shown.point[number] for alike in joints_alike(piece)]


def _off_faces(at: float, reach: Vector) -> float:
    """The nearest place that keeps clear of the outermost faces of every part."""
    for shift in sorted((n * OFF_FACES / 2 for n in range(-80, 81)), key=abs):
        if np.abs(reach - (at + shift)).min() >= OFF_FACES:
            return at + shift
    return at


def _shown(piece: Piece, plane: CuttingPlane) -> int:
    """How many distinct parts and distinct joints a plane cuts."""
    cut = {face.part.name: face for face in cut_faces(piece, plane)}
    marks = {item.mark for item in piece.items for name in (*item.parts, *item.mirrored) if name in cut}
    joints = sum(
        any(j.a in cut and j.b in cut and cut[j.a].adjoins(cut[j.b]) for j in alike.joints)
        for alike in joints_alike(piece)
    )
    return len(marks) + joints


def cut_faces(piece: Piece, plane: CuttingPlane) -> list[CutFace]:
    """What a plane cuts, in the order of the parts."""
    number, frame = AXIS_NUMBER[plane.axis], plane.frame
    found = []
    for part in piece.parts.values():
        low, high = part.mesh.box[:, number]
        if low < plane.at < high:
            section = part.mesh.moved(frame).manifold.slice(0.0)
            if section.area() > LEAST:
                found.append(CutFace(part, plane, section))
    return found


def behind(piece: Piece, plane: CuttingPlane) -> list[cq.Shape]:
    """The parts as they stand, what lies on the viewer's side of the plane taken away."""
    cut = {face.part.name for face in cut_faces(piece, plane)}
    away = Plane(axis_vector(plane.axis) * plane.at, plane.towards)
    shapes: list[cq.Shape] = []
    for part in piece.parts.values():
        standing = placed(part.sharp, part.at)
        if part.name in cut:
            left = kernel.less(standing, kernel.beyond(away))
            shapes += [kernel.tell_smooth_edges(solid) for solid in left]
        elif away.height(part.mesh.box.mean(axis=0)) < 0:
            shapes.append(standing)
    return shapes
