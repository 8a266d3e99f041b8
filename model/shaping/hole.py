"""Bored holes and rows of holes."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Literal

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.shaped import Shaped
from plans.shaping.hole import Hole
from plans.sides import AXES, AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm a through tool stands out on each side


def shape(body: Body, hole: Hole) -> Shaped:
    """One cylinder a hole, with a wider one or a cone at its mouth where it is stepped or countersunk."""
    centres = _centres(body, hole, hole.at)
    if hole.and_at:
        along = {SIDE_AXIS[side] for side in hole.and_at}
        kept = {side: distance for side, distance in hole.at.items() if SIDE_AXIS[side] not in along}
        centres += _centres(body, hole, {**kept, **hole.and_at})
    depth = body.blank.size(SIDE_AXIS[hole.side])
    if hole.deep is not None and hole.deep >= depth:
        raise KernelFault("the hole is as deep as the part; leave `deep` out for a hole right through")
    reach = depth + CLEAR if hole.deep is None else hole.deep
    inward = -side_vector(hole.side)
    tools = [bore(centre, inward, hole.diameter, reach) for centre in centres]
    tools += [mouth for centre in centres for mouth in _mouths(hole, centre, inward, min(depth, reach))]
    values = _values(hole, len(centres))
    first, *row = map(round_point, centres)
    callout = Callout("hole", dict(values), first, hole.side, row=tuple(row))
    sizes = centre_sizes(body, centres, hole.side, "hole")
    return Shaped("sunk", tuple(tools), Feature("hole", "shaping", sizes, (callout,), Operation("hole", dict(values))))


def _values(hole: Hole, count: int) -> dict[str, Value]:
    values: dict[str, Value] = {
        "diameter": hole.diameter,
        "deep": hole.deep,
        "count": count,
        "spacing": hole.spacing,
    }
    if hole.stepped is not None:
        values |= {"step": hole.stepped.diameter, "step deep": hole.stepped.deep, "mouth": hole.side}
    if hole.countersunk is not None:
        values |= {"countersunk": hole.countersunk, "mouth": hole.side}
    return values


def _mouths(hole: Hole, centre: Vector, inward: Vector, deep: float) -> list[cq.Solid]:
    """What widens the mouth of one hole."""
    found = []
    if hole.stepped is not None:
        if hole.stepped.deep >= deep:
            raise KernelFault("the step is as deep as the hole")
        found.append(bore(centre, inward, hole.stepped.diameter, hole.stepped.deep))
    if hole.countersunk is not None:
        if (hole.countersunk - hole.diameter) / 2 >= deep:
            raise KernelFault("the countersink is as deep as the hole")
        wide = hole.countersunk / 2 + CLEAR
        start, along = kernel.vector(centre - inward * CLEAR), kernel.vector(inward)
        found.append(cq.Solid.makeCone(wide, 0.0, wide, start, along))
    return found


def bore(mouth: Vector, inward: Vector, diameter: float, deep: float) -> cq.Solid:
    """A cylinder from a little outside `mouth` to `deep` below it (mm)."""
    start = mouth - inward * CLEAR
    return cq.Solid.makeCylinder(diameter / 2, deep + CLEAR, kernel.vector(start), kernel.vector(inward))


def middle_at(body: Body, side: Side, at: Mapping[Side, float]) -> Vector:
    """The point on `side` that lies `at` distances from other sides; in the middle where none is said."""
    point = body.blank.middle()
    point[AXIS_NUMBER[SIDE_AXIS[side]]] = body.blank.at(side)
    for other, distance in at.items():
        point[AXIS_NUMBER[SIDE_AXIS[other]]] = body.blank.at(other) - SIDE_SIGN[other] * distance
    return point


def _centres(body: Body, hole: Hole, at: Mapping[Side, float]) -> list[Vector]:
    first = middle_at(body, hole.side, at)
    spacing = hole.spacing or 0.0
    row = AXIS_NUMBER[body.runs]
    placed = next((side for side in at if SIDE_AXIS[side] == body.runs), None)
    step = -SIDE_SIGN[placed] if placed else 1
    start = first[row] if placed else first[row] - spacing * (hole.count - 1) / 2
    centres = []
    for i in range(hole.count):
        centre = first.copy()
        centre[row] = start + step * spacing * i
        centres.append(centre)
    off_middle = np.abs(np.array(centres) - body.blank.middle()).max(axis=0)
    widest = max(hole.diameter, hole.countersunk or 0.0, hole.stepped.diameter if hole.stepped else 0.0)
    for axis in AXES:
        room = (body.blank.size(axis) - widest) / 2 + NEAR
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
        sizes += [_apart(f"{name} spacing", a, _level(a, b, number), axis, side, "size") for a, b in steps]
    return tuple(sizes)


def _level(a: Vector, b: Vector, number: int) -> Vector:
    """The point as far along one axis as `b`, beside `a` along the others: two rows are set out from one."""
    point = a.copy()
    point[number] = b[number]
    return point


def _differ(a: Vector, b: Vector, number: int) -> bool:
    return abs(float(b[number] - a[number])) > NEAR


def _apart(name: str, a: Vector, b: Vector, axis: Axis, side: Side, role: Literal["position", "size"]) -> Size:
    value = abs(float(b[AXIS_NUMBER[axis]] - a[AXIS_NUMBER[axis]]))
    return Size(name, value, axis, round_point(a), round_point(b), side, role)
