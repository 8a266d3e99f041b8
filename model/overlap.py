"""Where two parts run into each other, and where they lie against each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cadquery as cq
import manifold3d
import numpy as np
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from model.brep import content
from model.cache import kept
from model.meshes import Floats, Mesh
from model.once import once

ANTIPARALLEL = 1e-6  # 1 - cos of the angle two faces may be out of parallel: 0.08 degrees
SAME_PLANE = 1e-3  # mm
FACET = 0.1  # mm a facet may lie off its curved face, and a little
SMALLEST_PATCH = 0.5  # mm2; anything less is rounding, not wood on wood


@dataclass(frozen=True)
class Patch:
    """One area over which a flat face of a part `a` lies against one of a part `b`.

    normal: unit vector from a to b; gap: mm between the faces (negative: overlap); outline: K x 3 points
    in order on a's face; holes: the same for openings in it. Area in mm2.
    """

    normal: Floats
    centroid: Floats
    area: float
    gap: float
    outline: Floats
    holes: tuple[Floats, ...] = ()


@dataclass(frozen=True)
class Flat:
    """All triangles of a mesh in one plane: normal . p = offset."""

    normal: Floats
    offset: float
    corners: Floats  # K x 3 x 3


def candidate_pairs(meshes: Sequence[Mesh], grow: float = 0.3) -> list[tuple[int, int]]:
    """Pairs (i < j) whose boxes, each grown by half of `grow` mm, meet."""
    return meeting_boxes(np.array([mesh.box for mesh in meshes]), grow)


def meeting_boxes(boxes: Floats, grow: float) -> list[tuple[int, int]]:
    """As `candidate_pairs`, of N x 2 x 3 boxes."""
    if len(boxes) < 2:
        return []
    low, high = boxes[:, 0], boxes[:, 1]
    apart = np.maximum(low[:, None] - high[None, :], low[None, :] - high[:, None]).max(axis=2)
    i, j = np.nonzero(np.triu(apart <= grow, k=1))
    return list(zip(i.tolist(), j.tolist(), strict=True))


def boxes_meet(a: Floats, b: Floats, grow: float = 0.0) -> bool:
    """Whether two boxes (2 x 3), each grown by half of `grow` mm, meet."""
    return bool((a[0] - b[1] <= grow).all() and (b[0] - a[1] <= grow).all())


def overlap_volume(a: Mesh, b: Mesh) -> float:
    """Volume (mm3) the two meshes share; curved fits are as coarse as their facets."""
    if not boxes_meet(a.box, b.box):
        return 0.0
    return max(0.0, float((a.manifold ^ b.manifold).volume()))


@dataclass(frozen=True)
class Shared:
    """What two meshes share: mm3, and its box (2 x 3, mm)."""

    volume: float
    box: Floats


def shared(a: Mesh, b: Mesh) -> Shared:
    """The same as `overlap_volume`, and where it is; the boxes of the two have to meet."""
    both = a.manifold ^ b.manifold
    return Shared(max(0.0, float(both.volume())), np.array(both.bounding_box()).reshape(2, 3))


def flat_there(a: Mesh, b: Mesh, box: Floats) -> bool:
    """Whether no curved face of either mesh comes near what the two share in a box: then its volume is exact."""
    for mesh in (a, b):
        curved = mesh.corners[~mesh.flat[mesh.face]]
        near = (curved.min(axis=1) < box[1] + FACET) & (curved.max(axis=1) > box[0] - FACET)
        if near.all(axis=1).any():
            return False
    return True


def common_volume(a: cq.Shape, b: cq.Shape) -> float:
    """Volume (mm3) two solids share, by the geometry kernel: slower than `overlap_volume`, and exact on curves."""
    return kept("common volume", lambda: (content(a), content(b)), lambda: _common_volume(a, b))


def _common_volume(a: cq.Shape, b: cq.Shape) -> float:
    common = BRepAlgoAPI_Common(a.wrapped, b.wrapped)
    if not common.IsDone():
        raise RuntimeError("the kernel could not intersect two solids")
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(common.Shape(), properties)
    return abs(float(properties.Mass()))


def contact_area(a: Mesh, b: Mesh, reach: float = 0.25) -> float:
    """Area (mm2) over which flat faces of `a` and `b` face each other within `reach` mm."""
    return sum(patch.area for patch in contact_patches(a, b, reach))


def contact_patches(a: Mesh, b: Mesh, reach: float = 0.25) -> list[Patch]:
    """The areas where flat faces of `a` and `b` face each other within `reach` mm, largest first."""
    if not boxes_meet(a.box, b.box, 2 * reach):
        return []
    flats_a, flats_b = flats(a), flats(b)
    if not flats_a or not flats_b:
        return []
    cosines = np.array([flat.normal for flat in flats_a]) @ np.array([flat.normal for flat in flats_b]).T
    gaps = -np.add.outer([flat.offset for flat in flats_a], [flat.offset for flat in flats_b])
    patches = []
    for i, j in zip(*np.nonzero((cosines < ANTIPARALLEL - 1) & (np.abs(gaps) <= reach)), strict=True):
        patches += _shared(flats_a[i], flats_b[j], float(gaps[i, j]))
    return sorted(patches, key=lambda p: (-round(p.area, 3), *np.round(p.centroid, 3)))


def across(normal: Floats) -> tuple[Floats, Floats]:
    """Two unit vectors square to `normal` and each other; (u, v, normal) is right-handed."""
    rough = np.eye(3)[int(np.argmin(np.round(np.abs(normal), 6)))]
    u = np.cross(rough, normal)
    u = u / np.linalg.norm(u)
    return u, np.cross(normal, u)


@once
def flats(mesh: Mesh) -> list[Flat]:
    """The flat faces of a mesh, those in one plane together."""
    found: list[Flat] = []
    for number in np.flatnonzero(mesh.flat):
        mine = mesh.face == number
        if not mine.any():
            continue
        corners = mesh.corners[mine]
        normal = mesh.normals[mine][0]
        offset = float(np.mean(corners.reshape(-1, 3) @ normal))
        for i, other in enumerate(found):
            if np.dot(normal, other.normal) > 1 - ANTIPARALLEL and abs(offset - other.offset) < SAME_PLANE:
                found[i] = Flat(other.normal, other.offset, np.concatenate([other.corners, corners]))
                break
        else:
            found.append(Flat(normal, offset, corners))
    return found


def _shared(a: Flat, b: Flat, gap: float) -> list[Patch]:
    """The connected areas two facing planes share, drawn on a's plane."""
    u, v = across(a.normal)
    axes = np.stack([u, v], axis=1)
    flat_a, flat_b = a.corners @ axes, b.corners @ axes
    apart = np.maximum(
        flat_a.min(axis=(0, 1)) - flat_b.max(axis=(0, 1)), flat_b.min(axis=(0, 1)) - flat_a.max(axis=(0, 1))
    )
    if apart.max() >= 0:
        return []
    both = _section(flat_a) ^ _section(flat_b[:, ::-1])
    patches = []
    for piece in both.decompose():
        if piece.area() < SMALLEST_PATCH:
            continue
        loops = sorted((np.asarray(loop, dtype=np.float64) for loop in piece.to_polygons()), key=_area, reverse=True)
        lifted = [loop @ axes.T + a.offset * a.normal for loop in loops]
        centre = _centroid(loops) @ axes.T + a.offset * a.normal
        patches.append(Patch(a.normal, centre, float(piece.area()), gap, lifted[0], tuple(lifted[1:])))
    return patches


def _section(triangles: Floats) -> manifold3d.CrossSection:
    """K x 3 x 2 triangles as one area."""
    return manifold3d.CrossSection(list(triangles), manifold3d.FillRule.NonZero)


def _area(loop: Floats) -> float:
    """Signed area of a closed loop; holes are negative."""
    x, y = loop.T
    return float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def _centroid(loops: Sequence[Floats]) -> Floats:
    """Centroid of an area bounded by `loops` (holes turning the other way)."""
    total, moment = 0.0, np.zeros(2)
    for loop in loops:
        following = np.roll(loop, -1, axis=0)
        cross = loop[:, 0] * following[:, 1] - loop[:, 1] * following[:, 0]
        total += float(cross.sum()) / 2
        moment += ((loop + following) * cross[:, None]).sum(axis=0) / 6
    return moment / total
