"""Where a piece is cut for its sections, what each plane cuts, and what is left standing behind it."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.cuts import LEAST, Cut, Stuff, stuff_of
from model.frames import Matrix, Vector, axis_vector
from model.joints_alike import joints_alike
from model.kernel import Plane, placed
from model.piece import Part, Piece
from plans.sides import AXIS_NUMBER, Axis

OFF_FACES = 1.0  # mm a plane keeps from faces that are parallel to it: cut along a face, chance decides what is seen
MIDDLE_IS_BETTER = 0.75  # of the most that any plane shows: then the plane through the middle is taken


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
    def up(self) -> Vector:
        """The page's top."""
        return axis_vector("up-down")

    @property
    def frame(self) -> Matrix:
        """From the piece to the plane, 4 x 4: x to the page's right, y up, z to the viewer, 0 in the plane."""
        turn = np.eye(4)
        turn[:3, :3] = np.array([self.right, [0.0, 0.0, 1.0], self.towards])
        turn[2, 3] = -self.at * float(self.towards[AXIS_NUMBER[self.axis]])
        return turn


@dataclass(frozen=True)
class CutFace(Cut):
    """What a plane cuts of one part."""

    part: Part
    plane: CuttingPlane

    @property
    def stuff(self) -> Stuff:
        """What it is cut out of."""
        return stuff_of(self.part)

    @property
    def shows_end_grain(self) -> bool:
        """Whether the fibres of the wood run through the plane rather than along it."""
        return self.stuff.on_end(self.plane)


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
                found.append(CutFace(section, part, plane))
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
