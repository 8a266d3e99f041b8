"""Where the tape is hooked on: places along a part are measured from a corner that is there when all is cut.

Kinds set their work out from the blank. An end let into a rabbet or a housing has grown past the end of its blank
without a shoulder that shows: there the place is measured from the end itself. A bevel may have taken the corner of a
leaning end: there it is measured from the corner that is left.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from model.body import Body
from model.frames import Vector, round_point
from model.kernel import vertices
from model.piece import Size
from plans.sides import AXIS_NUMBER

NEAR = 0.01  # mm
THE_SAME_CORNER = 2.0  # mm: a bevel leaves a corner this near


def hook_on(body: Body) -> None:
    """Measure every place on a finished body from a corner it has."""
    corners = vertices(body.sharp)
    body.features = [
        replace(feature, sizes=tuple(_hooked(body, size, corners) for size in feature.sizes))
        for feature in body.features
    ]


def _hooked(body: Body, size: Size, corners: Vector) -> Size:
    number = AXIS_NUMBER[size.along]
    at, column = size.start[number], corners[:, number]
    on_blank = min(abs(at - end) for end in body.blank.of(size.along)) < NEAR
    if size.role != "position" or not on_blank or not column.min() + NEAR < at < column.max() - NEAR:
        return size
    nearest = float(column[int(np.argmin(np.abs(column - at)))])
    if abs(nearest - at) > THE_SAME_CORNER:
        nearest = float(column.min() if at - column.min() < column.max() - at else column.max())
    start = np.array(size.start)
    start[number] = nearest
    return replace(size, value=abs(size.end[number] - nearest), start=round_point(start))
