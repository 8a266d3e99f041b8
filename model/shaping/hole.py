"""Bored holes and rows of holes."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size
from model.shaping.shaped import Shaped
from plans.shaping.hole import Hole
from plans.sides import AXES, AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm a through tool stands out on each side


def shape(body: Body, hole: Hole) -> Shaped:
    """One cylinder a hole."""
    centres = _centres(body, hole)
    depth = body.blank.size(SIDE_AXIS[hole.side])
    if hole.deep is not None and hole.deep >= depth:
        raise KernelFault("the hole is as deep as the part; leave `deep` out for a hole right through")
    reach = depth + CLEAR if hole.deep is None else hole.deep
    tools = tuple(bore(centre, -side_vector(hole.side), hole.diameter, reach) for centre in centres)
    values = {"diameter": hole.diameter, "deep": hole.deep, "count": hole.count, "spacing": hole.spacing}
    callout = Callout("hole", dict(values), round_point(centres[0]), hole.side)
    sizes = centre_sizes(body, centres, hole.side, "hole")
    return Shaped("sunk", tools, Feature("hole", "shaping", sizes, (callout,), Operation("hole", dict(values))))


def bore(mouth: Vector, inward: Vector, diameter: float, deep: float) -> cq.Solid:
    """A cylinder from a little outside `mouth` to `deep` below it (mm)."""
    start = mouth - inward * CLEAR
    return cq.Solid.makeCylinder(diameter / 2, deep + CLEAR, kernel.vector(start), kernel.vector(inward))


def _centres(body: Body, hole: Hole) -> list[Vector]:
    first = body.blank.middle()
    first[AXIS_NUMBER[SIDE_AXIS[hole.side]]] = body.blank.at(hole.side)
    for side, distance in hole.at.items():
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        first[number] = body.blank.at(side) - side_vector(side)[number] * distance
    spacing = hole.spacing or 0.0
    row = AXIS_NUMBER[body.runs]
    placed = next((side for side in hole.at if SIDE_AXIS[side] == body.runs), None)
    step = -SIDE_SIGN[placed] if placed else 1
    start = first[row] if placed else first[row] - spacing * (hole.count - 1) / 2
    centres = []
    for i in range(hole.count):
        centre = first.copy()
        centre[row] = start + step * spacing * i
        centres.append(centre)
    off_middle = np.abs(np.array(centres) - body.blank.middle()).max(axis=0)
    for axis in AXES:
        room = (body.blank.size(axis) - hole.diameter) / 2 + NEAR
        if axis != SIDE_AXIS[hole.side] and off_middle[AXIS_NUMBER[axis]] > room:
            raise KernelFault(f"the hole breaks out of the part {axis}; move it in, or make it smaller")
    return centres


def centre_sizes(body: Body, centres: list[Vector], side: Side, name: str) -> tuple[Size, ...]:
    """Places of centres from the datum end and the datum side; a row shows its first place and its pitch."""
    sizes: list[Size] = []
    for axis in (body.runs, body.wide, body.thick):
        if axis == SIDE_AXIS[side]:
            continue
        number = AXIS_NUMBER[axis]
        datum = body.blank.at(body.datum_end if axis == body.runs else body.datum_side(axis))
        ordered = sorted(centres, key=lambda c, n=number, d=datum: abs(float(c[n]) - d))  # type: ignore[misc]
        start = ordered[0].copy()
        start[number] = datum
        sizes.append(_apart(f"{name} position", start, ordered[0], axis, side, "position"))
        steps = (pair for pair in pairwise(ordered) if _differ(*pair, number))
        sizes += [_apart(f"{name} spacing", a, b, axis, side, "size") for a, b in steps]
    return tuple(sizes)


def _differ(a: Vector, b: Vector, number: int) -> bool:
    return abs(float(b[number] - a[number])) > NEAR


def _apart(name: str, a: Vector, b: Vector, axis: Axis, side: Side, role: Literal["position", "size"]) -> Size:
    value = abs(float(b[AXIS_NUMBER[axis]] - a[AXIS_NUMBER[axis]]))
    return Size(name, value, axis, round_point(a), round_point(b), side, role)
