"""Dovetails: tails on one board, pins on the other, marked from each other."""

from __future__ import annotations

from collections.abc import Iterator

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import Vector, round_point
from model.joints.corners import (
    LEAST,
    Corner,
    board_corners,
    corner_point,
    datum_way,
    local_side,
    must_be_at_least,
    point_on,
    span,
)
from model.joints.joining import Habits, reach_along
from model.kernel import KernelFault, spell
from model.piece import Callout, Feature, JointMade, Operation, Size, Value
from plans.joints.dovetail import Dovetail
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side

CLEAR = 1.0  # mm a cutter goes past the outer face of the corner
NOTHING = 0.01  # mm


def ratio(slope: str) -> float:
    """`1:8` as a number."""
    rise, run = slope.split(":")
    return float(rise) / float(run)


def join(bodies: dict[str, list[Body]], joint: Dovetail, number: int, habits: Habits) -> list[JointMade]:
    """Cut the tails of every corner, and the sockets that take them."""
    fit = 0.0 if joint.fit is None else joint.fit
    made = []
    for corner in board_corners(bodies[joint.of], bodies[joint.into]):
        of, into = corner.of, corner.into
        lap = _lap(corner)
        tail = _tail_width(corner, joint)
        sockets = list(_tails(corner, joint, tail, fit / 2))
        waste = kernel.less(corner.shared, *_tails(corner, joint, tail, -fit / 2))
        into.cut([into.local(socket) for socket in sockets], f"the pins of {into.name} for {of.name}")
        of.cut([of.local(gap) for gap in waste], f"the tails of {of.name} for {into.name}")
        of.features.append(_tail_feature(corner, joint, tail))
        into.features.append(_pin_feature(corner, joint, lap))
        travel = corner.size(corner.out_into)
        way = round_point(-corner.out_into)
        made.append(JointMade("dovetail", number, of.name, into.name, corner.where, way, travel, glued=True))
    return made


def _lap(corner: Corner) -> float:
    """What is left of the pin board past the end of the tails (mm); 0 where they come through."""
    lap = reach_along(corner.into.world(corner.into.sharp), corner.out_of)[1] - corner.reach(corner.out_of)[1]
    if lap < NOTHING:
        return 0.0
    must_be_at_least(lap, f"the lap over the tails of {corner.of.name} in {corner.into.name}")
    return lap


def _half(joint: Dovetail) -> float:
    return joint.pin if joint.half_pin is None else joint.half_pin


def _tail_width(corner: Corner, joint: Dovetail) -> float:
    """Width of a tail at its end (mm)."""
    room = corner.size(corner.width) - 2 * _half(joint) - (joint.tails - 1) * joint.pin
    tail = room / joint.tails
    neck = tail - 2 * corner.size(corner.out_of) * ratio(joint.slope)
    if neck < LEAST:
        raise KernelFault(
            f"a tail of {corner.of.name} is {spell(max(neck, 0.0))} at its neck; at least {spell(LEAST)} is wanted"
        )
    return tail


def _tails(corner: Corner, joint: Dovetail, tail: float, grow: float) -> Iterator[cq.Solid]:
    """Each tail as a prism from the shoulder out through the corner (piece), `grow` wider on both cheeks."""
    base, end = corner.reach(corner.out_of)
    inner, outer = corner.reach(corner.out_into)
    narrower = (end - base) * ratio(joint.slope)
    first = corner.reach(corner.width)[0] + _half(joint)
    for n in range(joint.tails):
        low = first + n * (tail + joint.pin)
        high = low + tail
        section = [
            (base, low + narrower - grow),
            (end, low - grow),
            (end, high + grow),
            (base, high - narrower + grow),
        ]
        points = [
            kernel.vector(corner.out_of * along + corner.width * across + corner.out_into * inner)
            for along, across in section
        ]
        wire = cq.Wire.makePolygon([*points, points[0]])
        way = kernel.vector(corner.out_into * (outer - inner + CLEAR))
        prism = cq.Solid.extrudeLinear(wire, [], way)
        yield kernel.one_solid(prism, f"a tail of {corner.of.name}")


def _tail_feature(corner: Corner, joint: Dovetail, tail: float) -> Feature:
    """Set out on the outer face at the end: where the other board begins, half pin, first tail, first pin; how long."""
    body = corner.of
    along = datum_way(body, corner)
    face = local_side(body, corner.out_into)
    start = corner_point(corner, corner.out_of, corner.out_into, -along)
    long = corner.size(corner.out_of)
    sizes = [
        *_begins(body, start, along, face),
        span(body, "half pin", start, along, _half(joint), face, "position"),
        span(body, "tail width", start + along * _half(joint), along, tail, face),
        span(body, "tail length", start, -corner.out_of, long, face),
    ]
    if joint.tails > 1:
        sizes.append(span(body, "pin", start + along * (_half(joint) + tail), along, joint.pin, face))
    values: dict[str, Value] = {
        "for": corner.into.kind,
        "tails": joint.tails,
        "wide": tail,
        "pin": joint.pin,
        "half pin": _half(joint),
        "long": long,
        "slope": joint.slope,
    }
    point = point_on(body, start + along * (_half(joint) + tail / 2) - corner.out_of * (long / 2))
    callout = Callout("tails", dict(values), point, face)
    return Feature("tails", "joint", tuple(sizes), (callout,), Operation("tails", dict(values)), corner.into.name)


def _begins(body: Body, start: Vector, along: Vector, face: Side) -> list[Size]:
    """Where the narrower of two boards begins, from the true edge of the wider; nothing where both begin together."""
    axis = SIDE_AXIS[local_side(body, along)]
    apart = abs(point_on(body, start)[AXIS_NUMBER[axis]] - body.blank.at(body.datum_side(axis)))
    return [] if apart < NOTHING else [span(body, "tails", start - along * apart, along, apart, face, "position")]


def _pin_feature(corner: Corner, joint: Dovetail, lap: float) -> Feature:
    """How long the pins are, and what lap is left before them; their shape is marked from the tails."""
    body = corner.into
    face = local_side(body, -corner.out_of)
    end = local_side(body, corner.out_into)
    long = corner.size(corner.out_into)
    along = datum_way(body, corner)
    start = corner_point(corner, corner.out_into, -corner.out_of, -along)
    sizes = [span(body, "pin length", start, -corner.out_into, long, face)]
    if lap:
        sizes.append(span(body, "socket depth", start, corner.out_of, corner.size(corner.out_of), end))
    values: dict[str, Value] = {
        "for": corner.of.kind,
        "pins": joint.tails - 1,
        "long": long,
        "deep": corner.size(corner.out_of),
        "lap": lap,
        "slope": joint.slope,
    }
    point = point_on(body, start + along * (corner.size(corner.width) / 2) - corner.out_into * (long / 2))
    callout = Callout("pins", dict(values), point, face)
    return Feature("pins", "joint", tuple(sizes), (callout,), Operation("pins", dict(values)), corner.of.name)
