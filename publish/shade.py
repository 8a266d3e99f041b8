"""Tinted pictures of parts seen from afar: the flat tint under the lines, and which part is seen where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.ndimage import distance_transform_edt

from model.meshes import Mesh
from publish.drawing.box import Box, Point
from publish.drawing.view import Axes, Reals, axes_of
from publish.raster import Floats, Grid, nearest

Colour = tuple[float, float, float]  # red, green, blue, each 0 to 1

PAPER = 255
# how light a face is: the base, and what each way it may look adds (up in the piece; left and out of the page)
BASE, UP, LEFT, OUT = 0.72, 0.28, 0.07, 0.12


@dataclass(frozen=True)
class Picture:
    """A picture of a view and what is on it.

    rgb: H x W x 3, white where nothing is; ids: H x W, number of the part seen (-1: none);
    depth: H x W, how near the viewer (view mm, -inf: none); grid: where in the view the pixels lie.
    """

    rgb: npt.NDArray[np.uint8]
    ids: npt.NDArray[np.int16]
    depth: npt.NDArray[np.float32]
    grid: Grid
    axes: Axes

    @property
    def box(self) -> Box:
        """The view mm the picture covers."""
        return self.grid.finer(1).box

    def count(self, part: int) -> int:
        """Pixels on which part number `part` is seen."""
        return int((self.ids == part).sum())


@dataclass(frozen=True)
class Scene:
    """Triangles of several parts in view coordinates, those turned away left out.

    corners: M x 3 x 3 (view x, view y, depth); normals: M x 3 in the piece; part: M.
    """

    axes: Axes
    corners: Floats
    normals: Floats
    part: npt.NDArray[np.int64]


def tint(
    meshes: Sequence[Mesh],
    colours: Sequence[Colour],
    towards: Reals,
    right: Reals,
    pixels_per_mm: float,
    box: Box | None = None,
    supersample: int = 1,
) -> Picture:
    """Parts in flat tints, lightest on top, by a viewer far off in the direction `towards`.

    box: what is shown, view mm (all of it where None); supersample: 2 averages 2 x 2 pixels for smooth edges.
    """
    scene = scene_of(meshes, axes_of(towards, right))
    grid = Grid(box or scene_box(meshes, scene.axes), pixels_per_mm)
    seen, depth = nearest(scene.corners, grid.finer(supersample))
    paints = np.asarray(colours, dtype=np.float64).reshape(-1, 3)[scene.part] * _lightness(scene)[:, None]
    # one more entry for the paper: triangle -1
    shades = np.vstack([np.round(np.clip(paints, 0, 1) * 255), [PAPER] * 3]).astype(np.uint8)
    rgb = shrunk(shades[seen], supersample)
    return picture_of(rgb, scene, seen, depth, grid, supersample)


def visible_share(picture: Picture, part: int, alone: Picture | int) -> float:
    """Share of a part that is seen, of what would be seen if nothing stood before it.

    alone: the same view and scale of that part by itself, or the number of its pixels there.
    """
    whole = alone if isinstance(alone, int) else int((alone.ids >= 0).sum())
    return picture.count(part) / whole if whole else 0.0


def anchor(picture: Picture, part: int) -> Point | None:
    """The spot deepest inside what is seen of a part, in view mm; None where it is not seen."""
    rows, columns = np.nonzero(picture.ids == part)
    if not len(rows):
        return None
    top, left = int(rows.min()), int(columns.min())
    window = picture.ids[top : rows.max() + 1, left : columns.max() + 1] == part
    # a rim of nothing: the picture's border is an edge too
    inside = distance_transform_edt(np.pad(window, 1))[1:-1, 1:-1]
    # a long part has a whole ridge of deepest pixels: take the middle of it
    ridge = np.argwhere(inside >= inside.max() - 0.5)
    row, column = ridge[np.abs(ridge - np.median(ridge, axis=0)).sum(axis=1).argmin()]
    x, y = picture.grid.places(np.array([left + column], dtype=np.float64), np.array([top + row], dtype=np.float64))
    return float(x[0]), float(y[0])


def scene_of(meshes: Sequence[Mesh], axes: Axes) -> Scene:
    """The parts' triangles as that viewer has them."""
    corners = np.concatenate([m.corners for m in meshes]) if meshes else np.zeros((0, 3, 3))
    normals = np.concatenate([m.normals for m in meshes]) if meshes else np.zeros((0, 3))
    part = np.repeat(np.arange(len(meshes)), [len(m.triangles) for m in meshes])
    facing = normals @ np.array(axes.towards) > 1e-9
    frame = np.array([axes.right, axes.up, axes.towards]).T
    return Scene(axes, corners[facing] @ frame, normals[facing], part[facing])


def scene_box(meshes: Sequence[Mesh], axes: Axes) -> Box:
    """The box round the parts in the view, a little grown."""
    if not meshes:
        return Box(0.0, 0.0, 1.0, 1.0)
    flat = np.concatenate([m.vertices for m in meshes]) @ np.array([axes.right, axes.up]).T
    (left, bottom), (right, top) = flat.min(axis=0), flat.max(axis=0)
    return Box(float(left), float(bottom), float(right), float(top)).grown(1.0)


def shrunk(image: npt.NDArray[np.uint8], times: int) -> npt.NDArray[np.uint8]:
    """An image (H x W x 3) with every `times` x `times` pixels averaged."""
    if times == 1:
        return image
    total = sum(image[i::times, j::times].astype(np.uint16) for i in range(times) for j in range(times))
    return np.asarray((total + times * times // 2) // (times * times), dtype=np.uint8)


def _lightness(scene: Scene) -> Floats:
    """How light each triangle is: the viewer's left shoulder lights the piece, from above."""
    left, out = -np.array(scene.axes.right), np.array(scene.axes.towards)
    up = scene.normals[:, 2]
    level = scene.normals * np.array([1.0, 1.0, 0.0])
    lightness: Floats = BASE + UP * np.maximum(up, 0) + LEFT * (level @ left) + OUT * (level @ out)
    return np.clip(lightness, 0.35, 1.0)


def picture_of(
    rgb: npt.NDArray[np.uint8], scene: Scene, seen: npt.NDArray[np.int32], depth: Floats, grid: Grid, times: int
) -> Picture:
    """The picture from finer arrays: of each block the middle pixel says what is seen."""
    middle = slice(times // 2, None, times)
    part = np.append(scene.part, -1).astype(np.int16)
    return Picture(rgb, part[seen[middle, middle]], depth[middle, middle].astype(np.float32), grid, scene.axes)
