"""How far a part can be slid, straight, before another one stops it.

From the pose given, every triangle of the mover that faces the way it goes is compared with every triangle of the
other part that faces it, where they cover each other seen along the direction. The smallest distance left between
such a pair is the free travel: exact for flat faces, no steps, and faces that slide on each other do not count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from model.meshes import Floats, Ints, Mesh
from model.overlap import across

LEAST_AREA = 0.02  # mm2; triangles covering each other by less only graze
FACING = 1e-6  # cosine below which a face runs along the direction
SLACK = 1e-3  # mm; faces this far past each other still count as touching
PAIRS_AT_ONCE = 200  # the nearest first: most ways end at once, on a face that touches


def free_travel(mover: Mesh, static: Mesh, direction: tuple[float, float, float] | Floats) -> float:
    """Mm that `mover` can be moved along `direction` (a unit vector) before it meets `static`; inf if never.

    The two must not overlap as given.
    """
    return way_left(facing(mover, direction, 1), facing(static, direction, -1))


@dataclass(frozen=True)
class Facing:
    """The triangles of a mesh that face along a direction, or against it, seen along it: (u, v, along).

    triangles: K x 4 x 3, three corners, turning left seen against the direction, and the normal; low, high: K x 3.
    """

    triangles: Floats
    low: Floats
    high: Floats

    def near(self, other: Facing) -> Facing:
        """Those that the other could cover at all."""
        if not len(self.low) or not len(other.low):
            return Facing(self.triangles[:0], self.low[:0], self.high[:0])
        low, high = other.low.min(axis=0)[:2], other.high.max(axis=0)[:2]
        kept = ((self.high[:, :2] > low) & (self.low[:, :2] < high)).all(axis=1)
        return Facing(self.triangles[kept], self.low[kept], self.high[kept])


def facing(mesh: Mesh, direction: tuple[float, float, float] | Floats, sign: int) -> Facing:
    """The triangles whose normal has the `sign` along the direction."""
    along = np.asarray(direction, dtype=np.float64)
    u, v = across(along)
    axes = np.stack([u, v, along], axis=1)
    chosen = mesh.normals @ along * sign > FACING
    corners = mesh.corners[chosen] @ axes
    normals = mesh.normals[chosen] @ axes
    triangles = np.concatenate([corners if sign > 0 else corners[:, ::-1], normals[:, None]], axis=1)
    return Facing(triangles, corners.min(axis=1), corners.max(axis=1))


def way_left(front: Facing, back: Facing, enough: float = 0.0) -> float:
    """As `free_travel`, of the triangles that face each other; it ends at the first found of no more than `enough`."""
    front, back = front.near(back), back.near(front)
    if not len(front.low) or not len(back.low):
        return math.inf
    i, j = _pairs(front, back)
    # no pair leaves less than from the top of the one to the bottom of the other
    least = back.low[j, 2] - front.high[i, 2]
    order = np.argsort(least, kind="stable")
    i, j, least = i[order], j[order], least[order]
    free = math.inf
    for first in range(0, len(i), PAIRS_AT_ONCE):
        if free < math.inf and free <= max(enough, float(least[first])):
            break
        some = slice(first, first + PAIRS_AT_ONCE)
        free = min(free, _smallest_gap(front.triangles[i[some]], back.triangles[j[some]]))
    return free


def _pairs(front: Facing, back: Facing) -> tuple[Ints, Ints]:
    """Numbers of triangle pairs whose boxes cover each other and where `back` is not wholly behind."""
    cover = back.high[None, :, 2] > front.low[:, None, 2] - SLACK
    for k in (0, 1):
        cover &= front.high[:, None, k] > back.low[None, :, k]
        cover &= back.high[None, :, k] > front.low[:, None, k]
    i, j = np.nonzero(cover)
    return i, j


def _smallest_gap(front: Floats, back: Floats) -> float:
    """Smallest height left between the triangles of each pair (both K x 4 x 3) where they cover each other."""
    shape = front[:, :3, :2]
    for k in range(3):
        start, end = back[:, k, :2], back[:, (k + 1) % 3, :2]
        inward = np.stack([start[:, 1] - end[:, 1], end[:, 0] - start[:, 0]], axis=1)
        length = np.linalg.norm(inward, axis=1, keepdims=True)
        inward = inward / np.where(length > 0, length, 1.0)
        shape = _clipped(shape, np.einsum("kpi,ki->kp", shape - start[:, None], inward))
    kept = _areas(shape) > LEAST_AREA
    if not kept.any():
        return math.inf
    shape, front, back = shape[kept], front[kept], back[kept]
    # where the other face lies behind, it has been passed already: only what is ahead can stop the mover
    shape = _clipped(shape, _heights(back, shape) - _heights(front, shape) + SLACK)
    kept = _areas(shape) > LEAST_AREA
    if not kept.any():
        return math.inf
    gaps = _heights(back[kept], shape[kept]) - _heights(front[kept], shape[kept])
    return max(0.0, float(gaps.min()))


def _clipped(shape: Floats, inside: Floats) -> Floats:
    """Convex polygons (K x P x 2) cut to where `inside` (K x P, linear over each) is not negative: K x (P + 1) x 2.

    Unused places repeat the first corner, so areas and extremes stay right; nothing left gives all zeros.
    """
    count, size, _ = shape.shape
    following, inside_next = np.roll(shape, -1, axis=1), np.roll(inside, -1, axis=1)
    crossing = (inside >= 0) != (inside_next >= 0)
    step = np.where(crossing, inside - inside_next, 1.0)
    met = shape + (following - shape) * np.where(crossing, inside / step, 0.0)[:, :, None]
    points = np.stack([shape, met], axis=2).reshape(count, 2 * size, 2)
    valid = np.stack([inside >= 0, crossing], axis=2).reshape(count, 2 * size)
    order = np.argsort(~valid, axis=1, kind="stable")[:, : size + 1]
    points = np.take_along_axis(points, order[:, :, None], axis=1)
    valid = np.take_along_axis(valid, order, axis=1)
    points = np.where(valid[:, :, None], points, points[:, :1])
    kept: Floats = np.where(valid[:, :1, None], points, 0.0)
    return kept


def _areas(shape: Floats) -> Floats:
    """Area of each polygon (K x P x 2), turning left."""
    x, y = shape[:, :, 0] - shape[:, :1, 0], shape[:, :, 1] - shape[:, :1, 1]
    areas: Floats = (x * np.roll(y, -1, axis=1) - y * np.roll(x, -1, axis=1)).sum(axis=1) / 2
    return areas


def _heights(triangles: Floats, shape: Floats) -> Floats:
    """Height of each triangle's plane (K x 4 x 3) over the points of each polygon (K x P x 2): K x P."""
    start, normal = triangles[:, 0], triangles[:, 3]
    slope = -normal[:, :2] / normal[:, 2:]
    heights: Floats = start[:, None, 2] + np.einsum("kpi,ki->kp", shape - start[:, None, :2], slope)
    return heights
