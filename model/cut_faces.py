"""Which faces of a finished part each of its features made, told from where the feature says it lies.

A feature names the sizes it cut and points it is told at, not faces: those the kernel numbers anew at every cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.frames import Vector, side_vector
from model.meshes import Mesh
from model.once import once
from model.piece import Feature, Part
from plans.sides import AXIS_NUMBER

NEAR = 0.6  # mm: what lies in the box of a cut, roughly
ON_THE_BLANK = 0.1  # mm from the sides of the blank: was there before
SLANT, LARGER = 0.12, 1.4  # a cut into a leaning part runs out of its box by a little
FACES = ("sloped end", "sloped edge")  # cuts that are a whole face, with a point on it and no size
NO_FACES = ("overall", "glued up", "round over", "chamfer")  # cut nothing, or the eased body only
FAR = 15.0  # mm from a feature's sizes and points: what lies further off is not its own
SAME_WAY, SAME_PLANE = 1e-4, 0.02  # of a unit normal; mm
ROOM = 1.5  # times the size of an easing: by so much a curved face may have become shorter
WHOLE_END = ("fingers", "tails", "pins")  # a size tells one of a row that goes over the whole width
Box = tuple[Vector, Vector]


@dataclass(frozen=True)
class _Face:
    """A face of the sharp body: its number, the corners of its triangles (n x 3), whether it is one of the blank's."""

    number: int
    corners: Vector
    outer: bool


@once
def faces_made(part: Part) -> tuple[frozenset[int], ...]:
    """For each feature of a part, the numbers of the faces of its sharp mesh that it made.

    First those in the box of what it cut; then each face that none has so goes to the feature it is nearest to. One
    that is still without takes the nearest face that another has (a peg hole lies in the box of its tenon), or the
    side of the blank on which it lies (an end let in whole is only marked).
    """
    faces = _faces(part)
    cuts = [f for f in faces if not f.outer]
    made = [{f.number for f in cuts if _is_of(f, feature, part)} for feature in part.features]
    work = [n for n, feature in enumerate(part.features) if feature.kind not in NO_FACES]
    for face in cuts:
        if work and not any(face.number in own for own in made):
            away = [_distance(face, part.features[n], part) for n in work]
            if min(away) < FAR:
                made[work[int(np.argmin(away))]].add(face.number)
    for n in work:
        if not made[n] and part.features[n].operation is not None:
            made[n] = _nearest(cuts, part.features[n], part) or _told_on(faces, part.features[n])
    return tuple(frozenset(own) for own in made)


def _nearest(faces: Sequence[_Face], feature: Feature, part: Part) -> set[int]:
    """The number of the face nearest to a feature; none where all are far off."""
    near = sorted((_distance(face, feature, part), face.number) for face in faces)
    return {number for away, number in near[:1] if away < FAR}


def _told_on(faces: Sequence[_Face], feature: Feature) -> set[int]:
    """The number of the smallest face of the blank that most places of a feature lie on."""
    places = _places(feature)
    ranked = [
        (
            -sum(_lies_on(face.corners, place) for place in places),
            float(np.ptp(face.corners, axis=0).sum()),
            face.number,
        )
        for face in faces
    ]
    (count, _, number), *_ = sorted(ranked) or [(0, 0.0, 0)]
    return {number} if count else set()


def _faces(part: Part) -> list[_Face]:
    mesh = part.own_mesh
    low, high = mesh.box
    found = []
    for number in np.unique(mesh.face):
        corners = mesh.corners[mesh.face == number].reshape(-1, 3)
        flat = np.ptp(corners, axis=0) < ON_THE_BLANK
        outer = flat & ((np.abs(corners[0] - low) < ON_THE_BLANK) | (np.abs(corners[0] - high) < ON_THE_BLANK))
        found.append(_Face(int(number), corners, bool(outer.any())))
    return found


def _is_of(face: _Face, feature: Feature, part: Part) -> bool:
    """Whether a face lies in the box of a feature, or is the whole face it names a point of."""
    if feature.operation is None:
        return False
    box = _box(feature, part)
    if box is not None and _within(face.corners, box):
        return True
    return feature.operation.name in FACES and any(_lies_on(face.corners, np.array(c.point)) for c in feature.callouts)


def _within(corners: Vector, box: Box) -> bool:
    """Whether a face is one of a cut: its middle in the box of the cut, and not much larger."""
    low, high = box
    middle, reach = corners.mean(axis=0), float(np.ptp(corners, axis=0).max())
    room = NEAR + SLANT * (high - low)
    return bool(((middle > low - room) & (middle < high + room)).all()) and reach < LARGER * float((high - low).max())


def _lies_on(corners: Vector, point: Vector) -> bool:
    """Whether a point lies on a flat face."""
    normal = np.cross(corners[1] - corners[0], corners[2] - corners[0])
    size = float(np.linalg.norm(normal))
    level = size > 0 and abs(float((point - corners[0]) @ normal)) < NEAR * size
    return level and bool(((point > corners.min(axis=0) - NEAR) & (point < corners.max(axis=0) + NEAR)).all())


def _box(feature: Feature, part: Part) -> Box | None:
    """The box of what a feature cut, in the standing frame: from its sizes, and as deep as it goes."""
    settings = feature.operation.settings if feature.operation is not None else {}
    sizes = [size for size in feature.sizes if size.role in ("size", "position")]
    cut = [size for size in sizes if size.role == "size"] if feature.kind != "taper" else sizes
    across = settings.get("diameter")
    if not cut and not isinstance(across, float):
        return None
    points = [np.array(point) for size in cut for point in (size.start, size.end)]
    points += [np.array(place) for callout in feature.callouts for place in (callout.point, *callout.row)]
    deep = settings.get("deep", settings.get("long"))
    reach = float(deep) if isinstance(deep, float) else float(max(part.over_all[1:]))
    inwards = [p - side_vector(callout.face) * reach for p in points for callout in feature.callouts]
    every = np.array([*points, *(inwards if feature.kind not in ("tenon", "tongue", "taper") else [])])
    half = across / 2 if isinstance(across, float) else 0.0
    low, high = every.min(axis=0) - half, every.max(axis=0) + half
    if feature.operation is not None and feature.operation.name in WHOLE_END:
        wide = AXIS_NUMBER[part.spec.wide]
        low[wide], high[wide] = part.width
    return low, high


def _distance(face: _Face, feature: Feature, part: Part) -> float:
    """From a face to the nearest of the places a feature names, or to the middle of the box of what it cut."""
    places = _places(feature)
    if not len(places):
        return float("inf")
    own = np.vstack([face.corners, face.corners.mean(axis=0)])
    away = float(np.linalg.norm(own[:, None] - places[None], axis=2).min())
    box = _box(feature, part)
    if box is None:
        return away
    outside = np.maximum(0.0, np.maximum(box[0] - own[-1], own[-1] - box[1]))
    return min(away, float(np.linalg.norm(outside)) + NEAR)


def _places(feature: Feature) -> Vector:
    """Ends of the sizes of a cut, and the points it is told at, others of its row with them (n x 3)."""
    places = [point for size in feature.sizes if size.role == "size" for point in (size.start, size.end)]
    for callout in feature.callouts:
        places += [callout.point, *callout.row, *(callout.fills or ())]
    return np.array(places)


@once
def faces_eased(part: Part) -> frozenset[int]:
    """The numbers of the faces of the eased mesh that the sharp body has not: rounds and chamfers."""
    eased, sharp = part.own_eased_mesh, part.own_mesh
    if eased is sharp:
        return frozenset()
    planes, curved = _planes(sharp), _curved(sharp)
    sizes = [
        feature.callouts[0].values["size"] for feature in part.features if feature.kind in ("round over", "chamfer")
    ]
    room = ROOM * max((float(size) for size in sizes if isinstance(size, float)), default=0.0)
    found = set()
    for number in np.unique(eased.face):
        first = int(np.argmax(eased.face == number))
        if eased.flat[number]:
            normal = eased.normals[first]
            plane = np.array([*normal, normal @ eased.corners[first, 0]])
            known = bool((np.abs(planes - plane) < (SAME_WAY, SAME_WAY, SAME_WAY, SAME_PLANE)).all(axis=1).any())
        else:
            box = _reach(eased, number)
            known = any(bool((np.abs(box - other) < room).all()) for other in curved)
        if not known:
            found.add(int(number))
    return frozenset(found)


def _planes(mesh: Mesh) -> Vector:
    """Normal and offset of every flat face (n x 4)."""
    firsts = [int(np.argmax(mesh.face == number)) for number in np.unique(mesh.face) if mesh.flat[number]]
    normals = mesh.normals[firsts]
    return np.column_stack([normals, np.einsum("ij,ij->i", normals, mesh.corners[firsts, 0])])


def _curved(mesh: Mesh) -> list[Vector]:
    return [_reach(mesh, number) for number in np.unique(mesh.face) if not mesh.flat[number]]


def _reach(mesh: Mesh, number: int) -> Vector:
    corners = mesh.corners[mesh.face == number].reshape(-1, 3)
    return np.array([corners.min(axis=0), corners.max(axis=0)])
