"""Two solids laid over each other: how far the surface of either lies from that of the other."""

from __future__ import annotations

import numpy as np
from manifold3d import Manifold, OpType
from numpy.typing import NDArray

Floats = NDArray[np.float64]
AT_ONCE = 500_000  # pairs of a point and a triangle
FEW = 32  # points taken together
SPECK = 1e-3  # mm
NEAR = 2.5  # mm
MANY = 400  # points far from the other surface are enough to say how far


def middle_of(solid: Manifold) -> list[float]:
    """The middle of its box."""
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    middle: list[float] = ((low + high) / 2).tolist()
    return middle


def corners_of(solid: Manifold) -> Floats:
    """M x 3 x 3, the corners of its triangles."""
    mesh = solid.to_mesh64()
    return np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts).astype(np.int64)]


def furthest_apart(a: Manifold, b: Manifold) -> tuple[float, Floats]:
    """The greatest distance (mm) of the surface of one from that of the other, and where.

    Looked for on the surface of what only one of them has: at the corners of its triangles, in the middle of their
    edges and of themselves.
    """
    odd = (a - b) + (b - a)
    if odd.is_empty():
        return 0.0, np.zeros(3)
    triangles = corners_of(odd)
    points = np.concatenate(
        [
            triangles.reshape(-1, 3),
            triangles.mean(axis=1),
            (triangles + np.roll(triangles, 1, axis=1)).reshape(-1, 3) / 2,
        ]
    )
    points = np.unique(points.round(3), axis=0)
    off = np.maximum(distances(points, corners_of(a)), distances(points, corners_of(b)))
    worst = int(np.argmax(off))
    return float(off[worst]), points[worst]


def a_ball_fits(a: Manifold, b: Manifold, across: float) -> bool:
    """Whether somewhere so much wood is over or missing that a ball `across` mm wide goes in.

    Where two recesses all but meet, a web thinner than a printed step is there or not; that is no fault.
    """
    odd = (a - b) + (b - a)
    if odd.is_empty():
        return False
    triangles = corners_of(odd)
    turned = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
    length = np.linalg.norm(turned, axis=1)
    large = length > 1e-6
    triangles, normals = triangles[large], turned[large] / length[large][:, None]
    middle = triangles.mean(axis=1, keepdims=True)
    within = np.concatenate([middle, (triangles + middle) / 2], axis=1)
    points = (within - normals[:, None, :] * across / 2).reshape(-1, 3)
    clear = points[distances(points, triangles) > across / 2 * 0.99]
    specks = [Manifold.cube([SPECK] * 3, center=True).translate(point.tolist()) for point in clear]
    # of a thin web such points lie outside, on the other side of it
    return bool((Manifold.batch_boolean(specks, OpType.Add) ^ odd).volume() > 0) if specks else False


def distances(points: Floats, triangles: Floats) -> Floats:
    """Of each point from the nearest triangle; first among those near it, then, where none is near, among all."""
    found = np.full(len(points), np.inf)
    low, high = triangles.min(axis=1) - NEAR, triangles.max(axis=1) + NEAR
    order = np.argsort(points[:, int(np.argmax(np.ptp(points, axis=0)))])
    for few in np.array_split(order, max(1, len(order) // FEW)):
        box = points[few].min(axis=0), points[few].max(axis=0)
        near = ((low <= box[1]) & (high >= box[0])).all(axis=1)
        if near.any():
            found[few] = _distances(points[few], triangles[near])
    far = np.flatnonzero(found > NEAR)[:MANY]
    found[found > NEAR] = NEAR
    for few in np.array_split(far, max(1, len(far) * len(triangles) // AT_ONCE)):
        if len(few):
            found[few] = _distances(points[few], triangles)
    return found


def _distances(points: Floats, triangles: Floats) -> Floats:
    """Ericson, Real-Time Collision Detection, 5.1.5; from memory."""
    a, b, c = np.moveaxis(triangles, 1, 0)
    p = points[:, None, :]
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=1)
    good = length > 1e-12
    unit = normal / np.where(good, length, 1.0)[:, None]
    height = np.abs(np.einsum("pmk,mk->pm", p - a, unit))
    inside = np.broadcast_to(good, height.shape).copy()
    nearest = np.full(height.shape, np.inf)
    for first, second in ((a, b), (b, c), (c, a)):
        edge = second - first
        away = p - first
        inside &= np.einsum("pmk,mk->pm", away, np.cross(unit, edge)) >= -1e-9
        share = np.clip(np.einsum("pmk,mk->pm", away, edge) / np.maximum((edge * edge).sum(axis=1), 1e-18), 0, 1)
        nearest = np.minimum(nearest, np.linalg.norm(away - share[..., None] * edge, axis=2))
    result: Floats = np.where(inside, height, nearest).min(axis=1)
    return result
