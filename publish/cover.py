"""The cover picture: the finished piece in its wood, on a floor, in soft daylight.

Light is worked out with the same depth buffer as the view: seen from each of many places in the sky, whatever is
not the nearest is in shadow. Where nothing takes light away the floor is white, and the picture melts into the page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.ndimage import gaussian_filter, zoom

from model.meshes import Mesh
from publish.daylight import Surfaces, along, daylight
from publish.drawing.box import Box
from publish.drawing.view import axes_of
from publish.looks import Look
from publish.raster import Floats, Grid, Ints, nearest
from publish.shade import Colour, Picture, Scene, picture_of, scene_box, scene_of, shrunk

AROUND = tuple((down, across) for down in (-1, 0, 1) for across in (-1, 0, 1))
Array = npt.NDArray[Any]

BAND = 30  # coarse rows painted at once: bounds the memory
COARSER = 3  # light is worked out in pixels so much larger: it changes slowly
FLOOR_DARK = 0.5  # how much of the light missing on the floor is shown
FLOOR_BLUR = 1.8  # coarse pixels
FLOOR_CLEAR = 0.05  # light that may be missing before the floor shows it
RIM = 0.10  # share of the picture over which the floor melts into the page
GAMMA = 2.2
WARM_SHADE = np.array([0.92, 1.0, 1.10])  # in the shade red stays longest
FLOOR = -1  # the surface number of the floor


@dataclass(frozen=True)
class Lit:
    """Light, surface number and part number (the floor is -1) at every pixel, each H x W."""

    light: Floats
    keys: Array
    parts: Array


@dataclass(frozen=True)
class Material:
    """What each part is made of: its tint, the frame it was cut in, and its look."""

    colours: Sequence[Colour]
    frames: Sequence[Floats]
    looks: Sequence[Look]


def cover_picture(
    meshes: Sequence[Mesh],
    colours: Sequence[Colour],
    frames: Sequence[Floats],
    looks: Sequence[Look],
    towards: Sequence[float],
    right: Sequence[float],
    pixels_per_mm: float,
    box: Box | None = None,
    supersample: int = 2,
) -> Picture:
    """The parts as they would look, standing on a floor at their lowest point.

    colours, looks: what each part is made of; frames: 4 x 4 for each part, from the piece to one with x along its
    length and z through its thickness.
    towards: from above the floor; box: what is shown, view mm (None: the parts and room for their shadow).
    """
    scene = scene_of(meshes, axes_of(towards, right))
    coarse = Grid(box or _with_shadow(scene_box(meshes, scene.axes)), pixels_per_mm / COARSER)
    grid, fine = coarse.finer(COARSER), coarse.finer(COARSER * supersample)
    floor = min(float(m.box[0, 2]) for m in meshes)
    light = _light(meshes, scene, coarse, floor)
    drawn_out: Floats = zoom(light.light, COARSER * supersample, order=1, mode="nearest", grid_mode=True)
    material = Material(colours, frames, looks)
    bands = []
    for row in range(0, coarse.height, BAND):
        band = (row * COARSER * supersample, min(row + BAND, coarse.height) * COARSER * supersample)
        seen, depth = nearest(scene.corners, fine, band)
        here = _finer(light, drawn_out[slice(*band)], _keys(scene)[seen], np.append(scene.part, FLOOR)[seen], row)
        image = np.repeat(_floor(here, band[0], fine.height)[:, :, None], 3, axis=2)
        on_part = seen >= 0
        painted = _painted(scene, material, fine, band[0], seen, depth)
        image[on_part] = (painted**GAMMA * here[on_part][:, None] ** WARM_SHADE) ** (1 / GAMMA)
        rgb = np.round(np.clip(image, 0, 1) * 255).astype(np.uint8)
        bands.append(picture_of(shrunk(rgb, supersample), scene, seen, depth, grid, supersample))
    rgb, ids, far = (np.concatenate([getattr(b, name) for b in bands]) for name in ("rgb", "ids", "depth"))
    return Picture(rgb, ids, far, grid, scene.axes)


def _with_shadow(box: Box) -> Box:
    """The box with room for what falls on the floor around the piece."""
    wide, high = box.width, box.height
    return Box(box.left - 0.08 * wide, box.bottom - 0.10 * high, box.right + 0.22 * wide, box.top + 0.05 * high)


def _floor(light: Floats, top: int, height: int) -> Floats:
    """How light the floor is drawn (H x W): white where it is open, and towards the picture's rim.

    light: rows from `top` on, of a picture of `height` rows.
    """
    missing = np.maximum(1 - light - FLOOR_CLEAR, 0) * FLOOR_DARK
    row, column = (np.minimum(np.arange(n) + 0.5, n - 0.5 - np.arange(n)) / (RIM * n) for n in (height, light.shape[1]))
    row = row[top : top + len(light)]
    fade = np.minimum(row, 1)[:, None] * np.minimum(column, 1)[None, :]
    floor: Floats = 1 - missing * fade * fade * (3 - 2 * fade)
    return floor


def _light(meshes: Sequence[Mesh], scene: Scene, grid: Grid, floor: float) -> Lit:
    """The light at every pixel of a grid; 1 on the open floor."""
    seen, depth = nearest(scene.corners, grid)
    keys = _keys(scene)[seen]
    right, up, towards = (np.array(axis) for axis in (scene.axes.right, scene.axes.up, scene.axes.towards))
    row, column = np.mgrid[0 : grid.height, 0 : grid.width].astype(np.float64)
    x, y = grid.places(column, row)
    on_floor = (floor - x * right[2] - y * up[2]) / towards[2]
    depth = np.where(seen >= 0, depth, on_floor)
    places = x[..., None] * right + y[..., None] * up + depth[..., None] * towards
    normals = np.vstack([scene.normals, [0.0, 0.0, 1.0]])[seen]
    surfaces = Surfaces(places.reshape(-1, 3), normals.reshape(-1, 3))
    light = _smoothed(daylight(meshes, surfaces, scene.axes).reshape(seen.shape), keys)
    light = np.where(keys == FLOOR, _blurred(light, keys == FLOOR), light)
    return Lit(light, keys, np.append(scene.part, FLOOR)[seen])


def _keys(scene: Scene) -> Ints:
    """A number for each triangle, the same for all that lie alike on one part; the floor's at the end."""
    looks = np.column_stack([scene.part, np.round(scene.normals * 8)])
    _, keys = np.unique(looks, axis=0, return_inverse=True)
    return np.append(keys.reshape(-1), FLOOR).astype(np.int64)


def _smoothed(light: Floats, keys: Ints) -> Floats:
    """The light without the grain of its few directions: averaged over neighbours on the same surface."""
    for step in (1, 2, 1):
        total, weight = light.copy(), np.ones_like(light)
        for down, across in AROUND:
            if down or across:
                same = _shifted(keys, down * step, across * step, FLOOR - 1) == keys
                total += np.where(same, _shifted(light, down * step, across * step, 0.0), 0.0)
                weight += same
        light = total / weight
    return light


def _blurred(light: Floats, floor: npt.NDArray[np.bool_]) -> Floats:
    """The light blurred over the floor alone."""
    weight = gaussian_filter(floor.astype(np.float64), FLOOR_BLUR)
    blurred: Floats = gaussian_filter(np.where(floor, light, 0.0), FLOOR_BLUR) / np.maximum(weight, 1e-9)
    return blurred


def _shifted(image: Array, down: int, across: int, rim: float) -> Array:
    """The image moved by some pixels, the rim filled."""
    moved = np.full_like(image, rim)
    height, width = image.shape
    to_rows, from_rows = slice(max(down, 0), height + min(down, 0)), slice(max(-down, 0), height + min(-down, 0))
    to_columns, from_columns = (
        slice(max(across, 0), width + min(across, 0)),
        slice(max(-across, 0), width + min(-across, 0)),
    )
    moved[to_rows, to_columns] = image[from_rows, from_columns]
    return moved


def _finer(coarse: Lit, drawn_out: Floats, keys: Array, parts: Array, top: int) -> Floats:
    """The light of fine pixels, from coarse ones of the same surface, or else of the same part.

    drawn_out: rows of the coarse light simply drawn out, from the coarse row `top` on; keys, parts: surface and part
    at each of those fine pixels.
    """
    light, height, width = drawn_out.copy(), *coarse.light.shape
    times = light.shape[1] // width
    inner = np.ones(coarse.light.shape, dtype=np.bool_)
    for down, across in AROUND:
        inner &= _shifted(coarse.keys, down, across, FLOOR - 1) == coarse.keys
    # inside a surface its light may simply be drawn out; near its border each pixel must look for its own
    rows = slice(top, top + len(light) // times)
    row, column = np.nonzero(~_repeated(inner[rows], times) | (_repeated(coarse.keys[rows], times) != keys))
    for mine, theirs in ((parts[row, column], coarse.parts), (keys[row, column], coarse.keys)):
        total, weight = np.zeros(len(row)), np.zeros(len(row))
        for down, across in AROUND:
            r = np.clip(top + row // times + down, 0, height - 1)
            c = np.clip(column // times + across, 0, width - 1)
            share = np.where(theirs[r, c] == mine, 0.5 ** (abs(down) + abs(across)), 0.0)
            total += share * coarse.light[r, c]
            weight += share
        found = weight > 0
        light[row[found], column[found]] = total[found] / weight[found]
    return light


def _repeated(image: Array, times: int) -> Array:
    return np.repeat(np.repeat(image, times, axis=0), times, axis=1)


def _painted(scene: Scene, material: Material, grid: Grid, top: int, seen: Array, depth: Floats) -> Floats:
    """Colour of the material (K x 3) at every pixel a part is seen at, in the order of the pixels, rows from `top`."""
    row, column = np.nonzero(seen >= 0)
    triangle = seen[row, column]
    x, y = grid.places(column.astype(np.float64), (row + top).astype(np.float64))
    there = np.stack([x, y, depth[row, column]])
    axes = np.array([scene.axes.right, scene.axes.up, scene.axes.towards])
    painted = np.asarray(material.colours, dtype=np.float64)[scene.part[triangle]]
    parts = scene.part[triangle].astype(np.int16)
    by_part = np.argsort(parts, kind="stable")
    ends = np.searchsorted(parts[by_part], np.arange(len(material.frames) + 1))
    for part, (frame, look) in enumerate(zip(material.frames, material.looks, strict=True)):
        mine = by_part[ends[part] : ends[part + 1]]
        if not len(mine):
            continue
        turn, seen_there = axes @ frame[:3, :3].T, there[:, mine]
        local = np.stack([along(turn[:, k], seen_there) + frame[k, 3] for k in range(3)], axis=1)
        normals = (scene.normals @ frame[:3, :3].T)[triangle[mine]]
        painted[mine] *= look(local, normals, part, 1 / grid.pixels_per_mm)
    return np.clip(painted, 0, 1)
