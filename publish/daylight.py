"""Soft daylight on a piece and the floor under it: the light of sky and sun that reaches every pixel of a view."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.meshes import Mesh
from publish.drawing.box import Box
from publish.drawing.view import Axes, axes_of
from publish.raster import Floats, Grid, nearest

SKY, SUN = 32, 12  # directions light comes from
SUN_SPREAD = 0.09  # radians: how far off the middle of the sun the outermost lie
SUN_SHARE = 0.45  # of the light on the open floor
BOUNCE = 0.24  # light thrown back by the floor on a face that looks down
MAP_PIXELS = 480  # across a shadow map
LIFT = 1.5  # mm a place is lifted off its face before it looks for light
GOLDEN = np.pi * (3 - np.sqrt(5))


@dataclass(frozen=True)
class Surfaces:
    """What lies at each of K places: where (K x 3), and which way it looks (K x 3)."""

    places: Floats
    normals: Floats


def daylight(meshes: Sequence[Mesh], surfaces: Surfaces, axes: Axes) -> Floats:
    """Light that reaches each place: 1 on the open floor; K values."""
    lifted = np.ascontiguousarray((surfaces.places + LIFT * surfaces.normals).T)
    looks = np.ascontiguousarray(surfaces.normals.T)
    corners = np.ascontiguousarray(np.concatenate([m.corners for m in meshes]).transpose(2, 0, 1))
    normals = np.concatenate([m.normals for m in meshes]).T
    total: Floats = BOUNCE * (1 - looks[2]) / 2
    for towards, share in _lights(axes):
        facing = along(towards, looks)
        lit = np.flatnonzero(facing > 0)
        free = _free(corners[:, along(towards, normals) > 0], lifted[:, lit], towards)
        total[lit] += share * facing[lit] * free
    return total


def along(axis: Sequence[float] | Floats, points: Floats) -> Floats:
    """How far points (3 x ...) lie along an axis; sums of three are quicker said so than as a matrix product."""
    far: Floats = axis[0] * points[0] + axis[1] * points[1] + axis[2] * points[2]
    return far


def _lights(axes: Axes) -> list[tuple[Floats, float]]:
    """Directions light comes from, with shares that make 1 on a level face."""
    lights = []
    turn = np.arange(SKY)
    # even steps of height give even shares of the sky
    height = (turn + 0.5) / SKY
    level = np.sqrt(1 - height**2)
    sky = np.column_stack([level * np.cos(turn * GOLDEN), level * np.sin(turn * GOLDEN), height])
    lights += [(way, (1 - SUN_SHARE) / height.sum()) for way in sky]
    right, out = (np.array([v[0], v[1], 0.0]) for v in (axes.right, axes.towards))
    middle = _unit(-0.60 * right + 0.62 * out / max(float(np.linalg.norm(out)), 1e-9) + np.array([0, 0, 1.25]))
    aside = _unit(np.cross(middle, [0.0, 0.0, 1.0]))
    other = np.cross(middle, aside)
    for k in range(SUN):
        off = SUN_SPREAD * np.sqrt((k + 0.5) / SUN)
        way = _unit(middle + off * (np.cos(k * GOLDEN) * aside + np.sin(k * GOLDEN) * other))
        lights.append((way, SUN_SHARE / SUN / way[2]))
    return lights


def _free(corners: Floats, places: Floats, towards: Floats) -> Floats:
    """1 for each place (3 x K) that no triangle (corners: 3 x M x 3) stands before in that direction, else 0."""
    side = np.eye(3)[int(np.argmin(np.abs(towards)))]
    axes = axes_of(towards.tolist(), side.tolist())
    flat = np.stack([along(axis, corners) for axis in (axes.right, axes.up, axes.towards)])
    low, high = flat[:2].min(axis=(1, 2)), flat[:2].max(axis=(1, 2))
    grid = Grid(Box(*low.tolist(), *high.tolist()).grown(5.0), MAP_PIXELS / float((high - low).max()))
    _, depth = nearest(np.moveaxis(flat, 0, 2), grid)
    column, row = grid.pixels(along(axes.right, places), along(axes.up, places))
    column, row = np.rint(column).astype(np.int64), np.rint(row).astype(np.int64)
    inside = (column >= 0) & (column < grid.width) & (row >= 0) & (row < grid.height)
    before = np.full(len(column), -np.inf)
    before[inside] = depth[row[inside], column[inside]]
    slack = LIFT / 2 + 1 / grid.pixels_per_mm
    free: Floats = np.where(before > along(axes.towards, places) + slack, 0.0, 1.0)
    return free


def _unit(vector: Floats) -> Floats:
    unit: Floats = vector / np.linalg.norm(vector)
    return unit
