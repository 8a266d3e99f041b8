"""Tapers: one sloping plane for each side named."""

from __future__ import annotations

import numpy as np

from model import kernel
from model.body import Body
from model.frames import side_vector
from model.kernel import KernelFault, Plane
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.shaped import Shaped
from plans.shaping.taper import Taper
from plans.sides import AXIS_NUMBER, OPPOSITE, SIDE_AXIS, Side


def shape(body: Body, taper: Taper) -> Shaped:
    """Planes from the line where the taper begins to the size left at the far end."""
    run = body.blank.size(body.runs) - taper.after
    if taper.after < 0 or run <= 0:
        raise KernelFault("the taper does not begin between the two ends")
    planes = {side: _plane(body, taper, side, run) for side in taper.sides}
    values: dict[str, Value] = {
        "sides": ", ".join(taper.sides),
        "from": taper.start,
        "after": taper.after,
        "to": taper.to,
    }
    point = _on_slope(body, taper, taper.sides[0], 0.6)
    callout = Callout("taper", dict(values), point, _seen_from(body, taper.sides[0]))
    sizes = [_size(body, taper, axis) for axis in dict.fromkeys(SIDE_AXIS[s] for s in taper.sides)]
    sizes += [_begins(body, taper, side) for side in taper.sides]
    feature = Feature("taper", "shaping", tuple(sizes), (callout,), Operation("taper", dict(values)))
    return Shaped("outline", tuple(kernel.beyond(plane) for plane in planes.values()), feature)


def _fall(body: Body, taper: Taper, side: Side) -> float:
    """How much comes off a side at the far end (mm)."""
    whole = body.blank.size(SIDE_AXIS[side]) - taper.to
    return whole / 2 if OPPOSITE[side] in taper.sides else whole


def _on_slope(body: Body, taper: Taper, side: Side, share: float) -> tuple[float, float, float]:
    """A point in the middle of the tapered face, `share` of the way down the slope."""
    run = body.blank.size(body.runs) - taper.after
    point = body.blank.middle()
    along, across = AXIS_NUMBER[body.runs], AXIS_NUMBER[SIDE_AXIS[side]]
    inward = -side_vector(taper.start)
    point[along] = body.blank.at(taper.start) + inward[along] * (taper.after + share * run)
    point[across] = body.blank.at(side) - side_vector(side)[across] * _fall(body, taper, side) * share
    return (float(point[0]), float(point[1]), float(point[2]))


def _plane(body: Body, taper: Taper, side: Side, run: float) -> Plane:
    fall = _fall(body, taper, side)
    normal = side_vector(side) * run - side_vector(taper.start) * fall
    return Plane(np.array(_on_slope(body, taper, side, 0.0)), normal / np.linalg.norm(normal))


def _seen_from(body: Body, side: Side) -> Side:
    """The long side from which the slope is seen true."""
    other = body.thick if SIDE_AXIS[side] == body.wide else body.wide
    return body.datum_side(other)


def _size(body: Body, taper: Taper, axis: str) -> Size:
    side = next(s for s in taper.sides if SIDE_AXIS[s] == axis)
    end = np.array(_on_slope(body, taper, side, 1.0))
    start = end.copy()
    number = AXIS_NUMBER[SIDE_AXIS[side]]
    opposite = OPPOSITE[side]
    start[number] = (
        _on_slope(body, taper, opposite, 1.0)[number] if opposite in taper.sides else body.blank.at(opposite)
    )
    return Size("foot", taper.to, SIDE_AXIS[side], _plain(start), _plain(end), _seen_from(body, side), "size")


def _begins(body: Body, taper: Taper, side: Side) -> Size:
    end = np.array(_on_slope(body, taper, side, 0.0))
    start = end.copy()
    number = AXIS_NUMBER[body.runs]
    start[number] = body.blank.at(body.datum_end)
    value = abs(float(end[number] - start[number]))
    return Size("taper begins", value, body.runs, _plain(start), _plain(end), _seen_from(body, side), "position")


def _plain(point: np.ndarray) -> tuple[float, float, float]:
    return (float(point[0]), float(point[1]), float(point[2]))
