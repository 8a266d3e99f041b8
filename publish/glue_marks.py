"""Glue faces hatched in a picture: where what is seen of a part lies on the face it is glued to, once both are home."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
import numpy.typing as npt

from model.frames import Vector
from model.meshes import Mesh
from model.piece import JointMade, Piece
from publish.shade import Picture

TOUCHES = 0.4  # mm between faces that glue bridges
OPPOSITE = -0.99  # cosine
EVERY, WIDE = 9, 3  # pixels: a stroke of so many in every so many
INK = 0.35  # how much of the tint is left in a stroke
Marked = npt.NDArray[np.bool_]


def glue_seen(
    piece: Piece, picture: Picture, names: Sequence[str], shifts: Mapping[str, Vector], joints: Sequence[JointMade]
) -> Marked:
    """Which pixels show a face that is glued in this step and lies open, its parts being drawn apart."""
    marked = np.zeros(picture.ids.shape, dtype=bool)
    for joint in joints:
        away = shifts[joint.a] - shifts[joint.b]
        if not joint.glued or float(np.linalg.norm(away)) < 1.0:
            continue
        for own, other in ((joint.a, joint.b), (joint.b, joint.a)):
            meshes = piece.parts[own].mesh, piece.parts[other].mesh
            marked |= _on_face(picture, names.index(own), shifts[own], *meshes)
    return marked


def hatched(picture: Picture, marked: Marked) -> npt.NDArray[np.uint8]:
    """The picture with strokes at 45 degrees over what is marked."""
    rows, columns = np.indices(marked.shape)
    stroke = marked & ((rows + columns) % EVERY < WIDE)
    rgb = picture.rgb.copy()
    rgb[stroke] = (rgb[stroke] * INK).astype(np.uint8)
    return rgb


def _on_face(picture: Picture, number: int, shift: Vector, own: Mesh, other: Mesh) -> Marked:
    """Pixels of part `number` that lie on a flat face of another, which looks the other way."""
    marked = np.zeros(picture.ids.shape, dtype=bool)
    rows, columns = np.nonzero(picture.ids == number)
    if not len(rows):
        return marked
    x, y = picture.grid.places(columns.astype(np.float64), rows.astype(np.float64))
    axes = np.array([picture.axes.right, picture.axes.up, picture.axes.towards])
    places = np.stack([x, y, picture.depth[rows, columns].astype(np.float64)], axis=1) @ axes - shift
    low, high = other.box
    near = ((places > low - TOUCHES) & (places < high + TOUCHES)).all(axis=1)
    found = np.zeros(len(places), dtype=bool)
    for normal, offset, corners in _faces(other, own):
        at = np.flatnonzero(near & ~found & (np.abs(places @ normal - offset) < TOUCHES))
        found[at[_inside(places[at], corners, normal)]] = True
    marked[rows[found], columns[found]] = True
    return marked


def _faces(mesh: Mesh, against: Mesh) -> list[tuple[Vector, float, Vector]]:
    """The flat faces of a mesh that a flat face of another lies against: normal, offset and triangles (n x 3 x 3)."""
    theirs = [_plane(against, face) for face in np.unique(against.face) if against.flat[face]]
    found = []
    for face in np.unique(mesh.face):
        if mesh.flat[face]:
            normal, offset = _plane(mesh, face)
            if any(float(n @ normal) < OPPOSITE and abs(o + offset) < TOUCHES for n, o in theirs):
                found.append((normal, offset, mesh.corners[mesh.face == face]))
    return found


def _plane(mesh: Mesh, face: int) -> tuple[Vector, float]:
    first = int(np.argmax(mesh.face == face))
    normal = mesh.normals[first]
    return normal, float(normal @ mesh.corners[first, 0])


def _inside(places: Vector, corners: Vector, normal: Vector) -> Marked:
    """Which places (n x 3) lie in one of the triangles (m x 3 x 3), looking along the normal."""
    within = np.zeros(len(places), dtype=bool)
    inwards = np.cross(normal, np.roll(corners, -1, axis=1) - corners)  # the way in from each edge of each triangle
    edges = np.einsum("mkx,mkx->mk", inwards, corners)
    for ways, edge in zip(inwards, edges, strict=True):
        within |= (places @ ways.T > edge - 1e-3).all(axis=1)
    return within
