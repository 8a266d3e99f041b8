"""Soft daylight on a piece and the floor under it: the light of sky and sun that reaches every pixel of a view."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.meshes import Mesh
from publish.drawing.box import Box
from publish.drawing.view import Axes, axes_of
from publish.raster import Floats, Grid, nearest
from publish.shade import scene_of

SKY, SUN = 40, 16  # directions light comes from
SUN_SPREAD = 0.09  # radians: how far off the middle of the sun the outermost lie
SUN_SHARE = 0.45  # of the light on the open floor
BOUNCE = 0.24  # light thrown back by the floor on a face that looks down
MAP_PIXELS = 640  # across a shadow map
LIFT = 1.5  # mm a place is lifted off its face before it looks for light
GOLDEN = np.pi * (3 - np.sqrt(5))


@dataclass(frozen=True)
class Surfaces:
    """What lies at each of K places: where (K x 3), and which way it looks (K x 3)."""

    places: Floats
    normals: Floats


def daylight(meshes: Sequence[Mesh], surfaces: Surfaces, axes: Axes) -> Floats:
    """Light that reaches each place: 1 on the open floor; K values."""
    lifted = surfaces.places + LIFT * surfaces.normals
    total = BOUNCE * (1 - surfaces.normals[:, 2]) / 2
    for towards, share in _lights(axes):
        facing = surfaces.normals @ towards
        lit = np.flatnonzero(facing > 0)
        free = _free(meshes, lifted[lit], towards)
        total[lit] += share * facing[lit] * free
    return total


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


def _free(meshes: Sequence[Mesh], places: Floats, towards: Floats) -> Floats:
    """1 for each place nothing stands before in that direction, else 0."""
    side = np.eye(3)[int(np.argmin(np.abs(towards)))]
    scene = scene_of(meshes, axes_of(towards.tolist(), side.tolist()))
    low, high = scene.corners[:, :, :2].min(axis=(0, 1)), scene.corners[:, :, :2].max(axis=(0, 1))
    grid = Grid(Box(*low.tolist(), *high.tolist()).grown(5.0), MAP_PIXELS / float((high - low).max()))
    _, depth = nearest(scene.corners, grid)
    axes = scene.axes
    column, row = grid.pixels(places @ np.array(axes.right), places @ np.array(axes.up))
    column, row = np.rint(column).astype(np.int64), np.rint(row).astype(np.int64)
    inside = (column >= 0) & (column < grid.width) & (row >= 0) & (row < grid.height)
    before = np.full(len(places), -np.inf)
    before[inside] = depth[row[inside], column[inside]]
    slack = LIFT / 2 + 1 / grid.pixels_per_mm
    free: Floats = np.where(before > places @ np.array(axes.towards) + slack, 0.0, 1.0)
    return free


def _unit(vector: Floats) -> Floats:
    unit: Floats = vector / np.linalg.norm(vector)
    return unit
