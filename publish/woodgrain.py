"""The look of wood as a solid: how dark it is at any place inside a board.

A board is cut from a trunk whose pith runs more or less along it, somewhere beside it. Rings lie round the pith,
light in spring and dark in summer wood; so long faces show lines and flames, and ends show arcs, by themselves.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

RING = 4.2  # mm from ring to ring
SUMMER = 0.16  # how much darker summer wood is
FIBRE = 0.045  # and the streaks between
BROAD = 0.05  # slow changes from place to place
END_GRAIN = 0.10  # open pores make an end darker


def grain(places: Floats, normals: Floats, seed: int, pixel: float) -> Floats:
    """How light the wood is (about 0.75 to 1.05) at K x 3 `places` of one board, mm, x along its grain.

    normals: K x 3, the face looked at there; seed: which board; pixel: mm a pixel shows (rings finer than that fade).
    """
    draw = np.random.default_rng(seed)
    far, round_, tilt = draw.uniform(55, 130), draw.uniform(0.15, 0.85) * np.pi, draw.uniform(-0.012, 0.012, 2)
    phases, table = draw.uniform(0, 2 * np.pi, 8), draw.uniform(-1, 1, 1024)
    x, y, z = places.T
    # the trunk is never quite straight or round
    bend = 5 * np.sin(x / 310 + phases[0]) + 2.2 * np.sin(x / 127 + phases[1])
    off_y = y - far * np.cos(round_) + tilt[0] * x + bend
    off_z = z + far * np.sin(round_) + tilt[1] * x + 0.7 * bend
    angle = np.arctan2(off_z, off_y)
    radius = np.hypot(off_y, off_z)
    radius = radius + 1.6 * np.sin(3 * angle + x / 240 + phases[2]) + 0.6 * np.sin(7 * angle + x / 90 + phases[3])
    # rings are wider in good years
    ring = radius / RING + 0.8 * np.sin(radius / 23 + phases[4])
    spring = ring - np.floor(ring)
    summer = spring**2.5 * np.clip((1 - spring) / 0.12, 0, 1)
    strength = np.clip(1.6 - pixel / RING * 1.6, 0, 1) * (0.75 + 0.25 * table[np.floor(ring).astype(np.int64) % 1024])
    streaks = _between(table, radius / 0.9 + 40 * angle) * np.clip(1.5 - pixel / 1.5, 0, 1)
    broad = np.sin(x / 190 + y / 70 + phases[5]) * np.sin(z / 60 - x / 260 + phases[6])
    end = np.abs(normals[:, 0]) ** 4
    light: Floats = (
        1.02 - SUMMER * strength * summer + FIBRE * streaks * (1 - end) + BROAD * broad * 0.5 - END_GRAIN * end
    )
    return light


def _between(table: Floats, at: Floats) -> Floats:
    """Values between the entries of an endless table."""
    low = np.floor(at)
    index, part = low.astype(np.int64), at - low
    value: Floats = table[index % 1024] * (1 - part) + table[(index + 1) % 1024] * part
    return value
