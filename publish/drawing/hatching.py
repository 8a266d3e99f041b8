"""Hatching: parallel lines inside closed rings.

Which way and how close: end grain at 45 degrees, parts that adjoin by turns to the left and to the right, a third one
closer; long grain along the fibres; sheet goods across their plane, half their thickness apart (the woodworking drawing
standard, as `DEVELOPERS.md` says; lines at least 0.7 mm apart, ISO 128-20).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from publish.drawing.box import Segment

Ring = npt.NDArray[np.float64]

SHORT = 0.15  # mm: a shorter line is a speck


@dataclass(frozen=True)
class Hatch:
    """Lines at an angle (degrees from the page's right), so far apart (mm)."""

    angle: float
    apart: float


def hatched(rings: Sequence[Ring], hatch: Hatch) -> list[Segment]:
    """The lines of a hatch inside rings (n x 2, paper mm): where an odd number of rings is round them.

    They lie on one set of lines over the whole sheet, so that pieces of one part match.
    """
    turn = math.radians(hatch.angle)
    along, across = np.array([math.cos(turn), math.sin(turn)]), np.array([-math.sin(turn), math.cos(turn)])
    starts = np.concatenate([np.asarray(ring) for ring in rings])
    ends = np.concatenate([np.roll(np.asarray(ring), -1, axis=0) for ring in rings])
    near, far = starts @ across, ends @ across
    found: list[Segment] = []
    first = math.ceil(near.min() / hatch.apart - 0.5)
    for n in range(first, math.floor(near.max() / hatch.apart - 0.5) + 1):
        level = (n + 0.5) * hatch.apart
        # half open: a corner on the line is met once, by one of its two edges
        crossed = (near <= level) != (far <= level)
        share = (level - near[crossed]) / (far[crossed] - near[crossed])
        met = np.sort((starts[crossed] + share[:, None] * (ends[crossed] - starts[crossed])) @ along)
        for a, b in zip(met[::2], met[1::2], strict=True):
            if b - a > SHORT:
                p, q = along * a + across * level, along * b + across * level
                found.append(Segment(float(p[0]), float(p[1]), float(q[0]), float(q[1])))
    return found
