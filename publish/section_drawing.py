"""What is drawn of a section whatever it is of: its hatching, and balloons that stand clear of its sizes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from model.cuts import Cut
from publish.drawing.balloons import BalloonLayout, BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box
from publish.drawing.dimensioning import Layout
from publish.drawing.hatching import Hatch, hatched
from publish.drawing.placed import PlacedView
from publish.drawing.records import Line, Record
from publish.drawing.style import HouseStyle, Pen

CLEAR = 0.8  # mm that leaders keep from figures and letters


def hatching(
    cuts: Sequence[Cut], hatch_of: Callable[[int, float], Hatch], placed: PlacedView, pen: Pen
) -> list[Record]:
    """The hatching of every cut; `hatch_of` gives it by the cut's number and the scale."""
    found: list[Record] = []
    at = np.array([placed.x, placed.y])
    for number, cut in enumerate(cuts):
        rings = [ring * placed.scale + at for ring in cut.rings]
        found += [Line(*line, pen) for line in hatched(rings, hatch_of(number, placed.scale))]
    return found


def balloons(
    wishes: Sequence[BalloonWish], placed: PlacedView, layout: Layout, letters: Box, free: Box, style: HouseStyle
) -> BalloonLayout:
    """Marks of what is cut, clear of the view, of its letters and of what is measured on it."""
    around = letters.grown(CLEAR)
    sizes = [box.grown(CLEAR) for p in layout.placements for box in (p.text, *(line.box for line in p.strokes))]
    occupied = Occupied(free, [placed.box, around, *layout.boxes()])
    return place_balloons(wishes, occupied, [around, *sizes], style)
