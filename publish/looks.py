"""What each material looks like as a solid: how its tint is changed at any place inside a part.

A look is a function of K x 3 places (mm, x along the part's length, z through its thickness), K x 3 normals of
the faces there, a seed (which part) and the mm a pixel shows; it gives K x 3 factors for red, green and blue.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from plans.spec import PartSpec
from publish.drawing.style import Colour
from publish.raster import Floats
from publish.woodgrain import grain

Look = Callable[[Floats, Floats, int, float], Floats]

PLY = 1.4  # mm: one layer of plywood
PLY_DARK = 0.16  # how much darker the layers seen on end are
SPECKS = ((2.5, 0.10), (7.0, 0.06))  # mm across, and how much lighter or darker
WARM = np.array([0.8, 1.0, 1.3])  # darker wood is browner, not greyer

METAL: Colour = (0.80, 0.81, 0.83)
PLAIN: Colour = (0.82, 0.83, 0.84)
PLAIN_WOOD: Colour = (0.90, 0.80, 0.64)
TINTS: dict[str, Colour] = {
    "black walnut": (0.62, 0.49, 0.39),
    "black cherry": (0.86, 0.66, 0.52),
    "sugar maple": (0.95, 0.88, 0.76),
    "red maple": (0.94, 0.86, 0.75),
    "white oak": (0.88, 0.77, 0.60),
    "northern red oak": (0.88, 0.74, 0.60),
    "white ash": (0.93, 0.86, 0.73),
    "american beech": (0.91, 0.79, 0.66),
    "yellow birch": (0.93, 0.84, 0.69),
    "birch plywood": (0.93, 0.85, 0.70),
    "mdf": (0.77, 0.68, 0.56),
    "hardboard": (0.55, 0.43, 0.33),
    "granite": (0.70, 0.70, 0.71),
    "marble": (0.93, 0.92, 0.91),
    "limestone": (0.87, 0.84, 0.77),
    "slate": (0.50, 0.53, 0.56),
    "quartz composite": (0.86, 0.85, 0.84),
    "glass": (0.85, 0.93, 0.91),
    "steel": (0.74, 0.75, 0.77),
    "brass": (0.85, 0.75, 0.50),
    "aluminium": (0.84, 0.85, 0.86),
}


def tint_of(spec: PartSpec) -> Colour:
    """The flat colour of what a part is made of."""
    return TINTS.get(spec.made_of.lower(), PLAIN if spec.material else PLAIN_WOOD)


def look_of(spec: PartSpec) -> Look:
    """The look of what a part is made of: wood unless the tables know better."""
    if spec.material is not None:
        return LOOKS.get(spec.made_of.lower(), plain)
    return LOOKS.get(spec.made_of.lower(), plywood if spec.sheet is not None else wood)


def wood(places: Floats, normals: Floats, seed: int, pixel: float) -> Floats:
    """Rings and streaks along the grain."""
    return _warm(grain(places, normals, seed, pixel))


def plywood(places: Floats, normals: Floats, seed: int, pixel: float) -> Floats:
    """The broad figure of a peeled veneer on both faces, layers on the edges."""
    sheet = places * np.array([1.0, 0.35, 0.02])  # peeled along the rings: they lie far apart
    face = np.array([0.0, 1.0, 1.0]) * normals  # no end grain on a face
    light = grain(sheet, face, seed, pixel)
    layer = np.floor(places[:, 2] / PLY).astype(np.int64) % 2
    strength = np.clip(1.6 - 0.8 * pixel / PLY, 0, 1)
    edge = np.abs(normals[:, 2]) < 0.7
    return _warm(np.where(edge, 1.0 - PLY_DARK * strength * layer, light))


def stone(places: Floats, normals: Floats, seed: int, pixel: float) -> Floats:
    """Specks of two sizes, lighter and darker; those finer than a pixel fade."""
    light = np.ones(len(places))
    for size, depth in SPECKS:
        strength = np.clip(1.6 - pixel / size * 1.6, 0, 1)
        light += depth * strength * (2 * _scattered(np.floor(places / size).astype(np.int64), seed) - 1)
    return np.repeat(light[:, None], 3, axis=1)


def plain(places: Floats, normals: Floats, seed: int, pixel: float) -> Floats:
    """Nothing but its tint: metal, glass, fibre boards."""
    return np.ones_like(places)


LOOKS: dict[str, Look] = {
    **dict.fromkeys(("mdf", "hardboard"), plain),
    **dict.fromkeys(("granite", "marble", "limestone", "slate", "quartz composite"), stone),
}


def _warm(light: Floats) -> Floats:
    warm: Floats = light[:, None] ** WARM
    return warm


def _scattered(cells: np.ndarray, seed: int) -> Floats:
    """A number from 0 to 1 for each cell (K x 3), the same wherever and whenever it is asked for."""
    mixed = cells.astype(np.uint64) @ np.array([73856093, 19349663, 83492791], dtype=np.uint64)
    mixed = mixed + np.uint64(seed * 2654435761)
    for shift in (13, 17, 5):
        mixed = (mixed ^ (mixed >> np.uint64(shift))) * np.uint64(1274126177)
    scattered: Floats = ((mixed >> np.uint64(20)) & np.uint64(0xFFFF)).astype(np.float64) / 0xFFFF
    return scattered
