"""Faces of a part that lie aslant to all its sides and have something set out on them: no usual view shows them true.

A slot for a spline across a mitre is the usual case: where it lies on the mitre is told by words alone, since each of
the three views shows the mitre foreshortened or on edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from model import kernel
from model.frames import Vector, axis_vector
from model.loops import Bounds, Flat, Loop
from model.outlines import FaceOutline, Lie, faces_towards
from model.piece import Feature, Part, Point
from plans.sides import Axis, third_axis

LEAST = math.cos(math.radians(10.0))  # cosine: a face nearer to square is seen all but true, 1/64 short in an inch
ON_FACE = 0.05  # mm from the plane of a face
LEVEL = 1e-6
# what is set out on the face that it is cut into; a key is sawn across a corner when that is glued, and pilot holes are
# bored through the other part
SET_OUT = {
    *("mortise", "screw hole", "hole", "slot", "recess", "groove", "end groove", "peg hole", "dowel hole"),
    *("fitting hole", "fitting recess", "biscuit slot", "spline slot"),
}


@dataclass(frozen=True)
class Opening:
    """Something cut into the face: of which feature (by its number), what, and the box of its mouth in the view."""

    feature: int
    what: str
    bounds: Bounds


@dataclass(frozen=True)
class AslantFace:
    """A flat face as seen along its normal: its pieces and what is seen through its openings, the deepest last."""

    lie: Lie
    height: float
    pieces: tuple[FaceOutline, ...]
    floors: tuple[FaceOutline, ...]
    openings: tuple[Opening, ...]

    @property
    def area(self) -> float:
        """Of the face itself, less what is cut into it (mm2)."""
        return sum(_area(piece) for piece in self.pieces)

    @property
    def loops(self) -> list[Loop]:
        """All outlines to be drawn."""
        return [loop for face in (*self.pieces, *self.floors) for loop in (face.rim, *face.openings)]

    @property
    def bounds(self) -> Bounds:
        """Of the face itself, what is cut into it included."""
        every = np.array([piece.rim.bounds() for piece in self.pieces])
        return (*every[:, :2].min(axis=0).tolist(), *every[:, 2:].max(axis=0).tolist())

    def runs_through(self, opening: Opening, axis: int) -> bool:
        """Whether it divides the face, running right across it along an axis of the view: then it has no ends there."""
        low, high = opening.bounds[1 - axis], opening.bounds[3 - axis]
        sides = [piece.rim.bounds() for piece in self.pieces]
        return all(one[3 - axis] < low + ON_FACE or one[1 - axis] > high - ON_FACE for one in sides)

    def point(self, x: float, y: float) -> Point:
        """Where a place of the view lies on the part (standing frame)."""
        at = self.lie.right * x + self.lie.up * y + self.lie.towards * self.height
        return float(at[0]), float(at[1]), float(at[2])


def _area(face: FaceOutline) -> float:
    return face.rim.area - sum(loop.area for loop in face.openings)


def aslant_faces(part: Part) -> Iterator[AslantFace]:
    """The faces that want a view of their own, in the order of the features set out on them; each once."""
    seen: list[tuple[Vector, float]] = []
    for feature in part.features:
        for normal, height in _planes(part, feature):
            if not any(abs(h - height) < ON_FACE and float(n @ normal) > 1 - LEVEL for n, h in seen):
                seen.append((normal, height))
                face = _face(part, normal, height)
                if face.openings:
                    yield face


def _planes(part: Part, feature: Feature) -> Iterator[tuple[Vector, float]]:
    """The aslant planes of the part that what is set out of a feature lies in."""
    points = [np.array(callout.point) for callout in feature.callouts if callout.what in SET_OUT]
    if not points:
        return
    for _, plane in kernel.flat_faces(part.sharp):
        if float(np.abs(plane.normal).max()) < LEAST:
            for point in points:
                if abs(float((point - plane.point) @ plane.normal)) < ON_FACE:
                    yield plane.normal, float(plane.point @ plane.normal)


def _face(part: Part, normal: Vector, height: float) -> AslantFace:
    lie = _lie(part, normal)
    every = faces_towards(part, lie)
    pieces = tuple(face for face in every if abs(face.height - height) < ON_FACE)
    below = [face for face in every if face.height < height - ON_FACE]
    openings: list[Opening] = []
    floors: list[FaceOutline] = []
    for number, feature in enumerate(part.features):
        for callout in feature.callouts:
            if callout.what not in SET_OUT:
                continue
            for place in (np.array(point) for point in (callout.point, *callout.row)):
                if abs(float(place @ normal) - height) > ON_FACE:
                    continue
                at, deep = lie.at(place), callout.values.get("deep")
                floor = next((f for f in below if _is_floor(f, at, height, deep)), None)
                mouth = next((o for p in pieces for o in p.openings if _has(o.bounds(), at)), None)
                if floor is not None:
                    floors.append(floor)
                if mouth is not None:
                    openings.append(Opening(number, callout.what, mouth.bounds()))
                elif floor is not None:
                    openings.append(Opening(number, callout.what, floor.rim.bounds()))
    return AslantFace(lie, height, pieces, tuple(floors), tuple(openings))


def _is_floor(face: FaceOutline, at: Flat, height: float, deep: object) -> bool:
    """Whether a face is the bottom of what is cut in at a place, so deep as it is told to be."""
    return isinstance(deep, float) and abs(height - deep - face.height) < ON_FACE and _has(face.rim.bounds(), at)


def _has(bounds: Bounds, at: Flat) -> bool:
    left, bottom, right, top = bounds
    return left <= at[0] <= right and bottom <= at[1] <= top


def _lie(part: Part, normal: Vector) -> Lie:
    """An axis of the part that lies in the face runs up the page; else its width, as nearly as may be."""
    wide = third_axis(part.spec.runs, part.spec.thick)
    axes: tuple[Axis, ...] = (wide, part.spec.thick, part.spec.runs)
    axis = min(axes, key=lambda one: round(abs(float(axis_vector(one) @ normal)), 6))
    up = axis_vector(axis) - normal * float(axis_vector(axis) @ normal)
    up = up / np.linalg.norm(up)
    return Lie(np.cross(up, normal), up, normal)
