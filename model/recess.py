"""How a square-cornered recess is set out: from the datum end along the part, across it, and into it."""

from __future__ import annotations

import numpy as np

from model.body import Body
from model.frames import Vector
from model.piece import Size
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side

NOTHING = 0.01  # mm


def recess_sizes(body: Body, low: Vector, high: Vector, opens: Side, name: str) -> tuple[Size, ...]:
    """Sizes of the box between `low` and `high` (standing frame) that opens on the side `opens`."""
    depth_axis = SIDE_AXIS[opens]
    seen = body.datum_side(body.thick if depth_axis == body.wide else body.wide)
    if depth_axis == body.runs:
        seen = body.datum_side(body.thick)
    sizes = [
        *placed(body, low, high, body.runs, seen, name),
        span(f"{name} depth", low, high, depth_axis, seen, low),
    ]
    across = body.wide if depth_axis == body.thick else body.thick
    if body.blank.size(across) - (high - low)[AXIS_NUMBER[across]] > NOTHING:
        sizes += placed(body, low, high, across, opens, name)
    return tuple(sizes)


def placed(body: Body, low: Vector, high: Vector, axis: Axis, seen: Side, name: str) -> list[Size]:
    """Position from the datum, then size, along one axis; no position where it begins at the datum, or before it."""
    number = AXIS_NUMBER[axis]
    datum_side = body.datum_end if axis == body.runs else body.datum_side(axis)
    datum = body.blank.at(datum_side)
    near, far = sorted((float(low[number]), float(high[number])), key=lambda value: abs(value - datum))
    corner = low.copy()
    found = []
    if SIDE_SIGN[datum_side] * (datum - near) > NOTHING:
        found.append(_between(f"{name} position", datum, near, axis, seen, corner, "position"))
    found.append(_between(f"{name} size", near, far, axis, seen, corner, "size"))
    return found


def _between(name: str, a: float, b: float, axis: Axis, seen: Side, corner: Vector, role: str) -> Size:
    start, end = corner.copy(), corner.copy()
    start[AXIS_NUMBER[axis]], end[AXIS_NUMBER[axis]] = a, b
    return Size(name, abs(b - a), axis, _plain(start), _plain(end), seen, role)  # type: ignore[arg-type]


def span(name: str, low: Vector, high: Vector, axis: Axis, seen: Side, corner: Vector) -> Size:
    """The size of a box along one axis, seen from `seen`."""
    number = AXIS_NUMBER[axis]
    return _between(name, float(low[number]), float(high[number]), axis, seen, corner, "size")


def _plain(point: Vector) -> tuple[float, float, float]:
    return (float(point[0]), float(point[1]), float(np.asarray(point)[2]))
