"""Which hatch a cut face gets: by what it is made of and how its grain runs, and told apart from its neighbours."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from model.cuts import Cut, Seen, Stuff
from model.frames import Vector
from publish.drawing.hatching import Hatch

END_GRAIN = (Hatch(45.0, 1.7), Hatch(-45.0, 1.7), Hatch(45.0, 1.05), Hatch(-45.0, 1.05))
LONG_GRAIN = (2.6, 1.7, 3.6, 1.2)  # mm apart
LEAST_APART = 0.7  # mm (ISO 128-20)
MOST_APART = 3.6


def hatch_of(stuff: Stuff, plane: Seen, way: int, scale: float) -> Hatch:
    """The hatch on paper at a scale (paper mm a model mm); `way` is its number among those that tell faces apart."""
    if stuff.kind == "sheet" and (across := _angle(plane, stuff.thick_way)) is not None:
        return Hatch(across, min(max(stuff.thick * scale / 2, LEAST_APART), MOST_APART))
    if stuff.kind == "wood" and not stuff.on_end(plane) and (along := _angle(plane, stuff.grain)) is not None:
        return Hatch(along, LONG_GRAIN[way % len(LONG_GRAIN)])
    return END_GRAIN[way % len(END_GRAIN)]


def told_apart(cuts: Sequence[Cut]) -> list[int]:
    """A number for each cut that none of those before it which it adjoins has, the least there is."""
    ways: list[int] = []
    for n, cut in enumerate(cuts):
        taken = {ways[m] for m in range(n) if cut.adjoins(cuts[m])}
        ways.append(next(way for way in range(len(cuts)) if way not in taken))
    return ways


def _angle(plane: Seen, way: Vector) -> float | None:
    """The angle at which a direction lies in a plane (degrees); None where it is seen on end."""
    x, y = float(way @ plane.right), float(np.asarray(way) @ plane.up)
    return None if math.hypot(x, y) < 0.5 else math.degrees(math.atan2(y, x))
