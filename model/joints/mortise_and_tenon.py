"""Blind mortise and tenon: one tool solid makes both halves, so they match by construction."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, apply, axis_vector, inverse, nearest_side, round_point, side_vector
from model.joints.joining import Habits, end_plane, met_by
from model.kernel import KernelFault, Plane
from model.piece import Callout, Feature, JointMade, Operation, Size, Value
from model.recess import placed
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Axis, Side

NEAR = 1e-6  # mm
INSIDE = 10.0  # mm the tool starts behind the shoulder, inside the tenoned part


@dataclass(frozen=True)
class Seat:
    """One tenon to be made: where its shoulder is, and the rectangle of its section (standing frame of `of`)."""

    of: Body
    into: Body
    end: Side
    shoulder: Plane  # standing frame of `of`; the normal points the way the tenon goes in
    low: Vector
    high: Vector


def join(bodies: dict[str, list[Body]], joint: MortiseAndTenon, number: int, habits: Habits) -> list[JointMade]:
    """Find every end that meets the other kind, then cut all tenons and their mortises."""
    seats = [seat for body in bodies[joint.of] for seat in _seats(body, joint, bodies[joint.into])]
    fit = habits.fit if joint.fit is None else joint.fit
    relief = habits.relief if joint.relief is None else joint.relief
    made = []
    for seat in seats:
        mortise = seat.of.world(_tool(seat, joint.long + relief, fit))
        what = f"the mortise in {seat.into.name} for {seat.of.name}"
        seat.into.cut([seat.into.local(mortise)], what)
        seat.of.add(_tool(seat, joint.long, 0.0), f"the tenon of {seat.of.name}")
        seat.of.features.append(_tenon_feature(seat, joint))
        seat.into.features.append(_mortise_feature(seat, joint, relief))
        where = round_point(apply(seat.of.at, np.mean(_long_edges(seat), axis=0)))
        way = round_point(seat.of.outward(seat.end))
        names = (seat.of.name, seat.into.name)
        made.append(JointMade("mortise and tenon", number, *names, where, way, joint.long, glued=True))
    return made


def _seats(body: Body, joint: MortiseAndTenon, others: list[Body]) -> list[Seat]:
    found = []
    for end in joint.ends or body.ends:
        closing = end_plane(body, end)
        into = None if closing is None else met_by(closing[1], others)
        if closing is None or into is None:
            continue
        low, high = _section(body, joint, body.local(closing[0]))
        found.append(Seat(body, into, end, body.local_plane(closing[1]), low, high))
    return found


def _section(body: Body, joint: MortiseAndTenon, face: cq.Shape) -> tuple[Vector, Vector]:
    """Corners of the tenon's section; its place along the run is open.

    Shoulders are set in from the true edges of the part, as its width is; a bevelled edge leaves less of them.
    """
    low, high = body.blank.low.copy(), body.blank.high.copy()
    for side, shoulder in joint.shoulders.items():
        column_number = AXIS_NUMBER[SIDE_AXIS[side]]
        if side_vector(side)[column_number] > 0:
            high[column_number] -= shoulder
        else:
            low[column_number] += shoulder
    across = AXIS_NUMBER[body.thick]
    room = high[across] - low[across]
    if joint.thick >= room:
        raise KernelFault(f"a tenon {joint.thick:.1f} mm thick leaves no cheek on {body.name}, which is {room:.1f} mm")
    middle = (low[across] + high[across]) / 2
    low[across], high[across] = middle - joint.thick / 2, middle + joint.thick / 2
    if high[AXIS_NUMBER[body.wide]] - low[AXIS_NUMBER[body.wide]] <= 1.0:
        raise KernelFault(f"the shoulders leave no tenon on {body.name}")
    _inside_the_end(body, face, low, high)
    return low, high


def _inside_the_end(body: Body, face: cq.Shape, low: Vector, high: Vector) -> None:
    """A tenon must not stand out of the end it grows from, which a bevel may have made smaller."""
    corners = kernel.vertices(face)
    for axis in (body.wide, body.thick):
        number = AXIS_NUMBER[axis]
        column = np.sort(corners[:, number])
        half = len(column) // 2
        if low[number] < column[half - 1] - NEAR or high[number] > column[half] + NEAR:
            raise KernelFault(f"the tenon of {body.name} stands out past its sloping edge; give it more shoulder")


def _tool(seat: Seat, deep: float, fit: float) -> cq.Solid:
    """The tenon, grown by `fit` on its four cheeks and `deep` from the face it goes into, end parallel to it."""
    number = AXIS_NUMBER[seat.of.runs]
    sign = side_vector(seat.end)[number]
    low, high = seat.low - fit, seat.high + fit
    at_face = seat.shoulder.point[number]
    lean = abs(float(seat.shoulder.normal[number]))
    reach = (deep + INSIDE) / lean + seat.of.blank.size(seat.of.wide)
    inside, outside = at_face - sign * reach, at_face + sign * reach
    low[number], high[number] = min(inside, outside), max(inside, outside)
    normal = seat.shoulder.normal
    stops = [
        kernel.beyond(Plane(seat.shoulder.point + normal * deep, normal)),
        kernel.beyond(Plane(seat.shoulder.point - normal * INSIDE, -normal)),
    ]
    return kernel.one_solid(kernel.box(low, high).cut(*stops), "the tenon")


def _long_edges(seat: Seat) -> list[Vector]:
    """The four points where the edges of the tenon pass through the shoulder (standing frame of `of`)."""
    number = AXIS_NUMBER[seat.of.runs]
    run = np.zeros(3)
    run[number] = 1.0
    points = []
    wide, thick = AXIS_NUMBER[seat.of.wide], AXIS_NUMBER[seat.of.thick]
    for w in (seat.low[wide], seat.high[wide]):
        for t in (seat.low[thick], seat.high[thick]):
            point = np.zeros(3)
            point[wide], point[thick] = w, t
            along = -seat.shoulder.height(point) / float(seat.shoulder.normal @ run)
            points.append(point + run * along)
    return points


def _tenon_feature(seat: Seat, joint: MortiseAndTenon) -> Feature:
    body = seat.of
    number = AXIS_NUMBER[body.runs]
    corners = np.array(_long_edges(seat))
    corner = corners[int(np.argmax(side_vector(seat.end)[number] * corners[:, number]))]
    tip = corner + side_vector(seat.end) * abs(joint.long / float(seat.shoulder.normal[number]))
    face, edge = body.datum_side(body.thick), body.datum_side(body.wide)
    low, high = seat.low.copy(), seat.high.copy()
    low[number] = high[number] = float(corner[number])
    reach = abs(float(tip[number] - corner[number]))
    sizes = [
        Size("tenon length", reach, body.runs, round_point(corner), round_point(tip), face, "size"),
        *placed(body, low, high, body.wide, face, "tenon width"),
        *placed(body, low, high, body.thick, edge, "tenon thickness"),
    ]
    wide = float(seat.high[AXIS_NUMBER[body.wide]] - seat.low[AXIS_NUMBER[body.wide]])
    values: dict[str, Value] = {
        "for": seat.into.kind,
        "thick": joint.thick,
        "wide": wide,
        "long": joint.long,
        "end": seat.end,
    }
    middle = (corners.mean(axis=0) + tip - corner).tolist()
    callout = Callout("tenon", dict(values), (middle[0], middle[1], middle[2]), face)
    return Feature("tenon", "joint", tuple(sizes), (callout,), Operation("tenon", dict(values)), seat.into.name)


def _mortise_feature(seat: Seat, joint: MortiseAndTenon, relief: float) -> Feature:
    """Set out from the datum end to the nearest corner of the mouth, and from the true side to its nearest corner."""
    body, of = seat.into, seat.of
    to_local = inverse(body.at) @ of.at
    mouth = np.array([to_local[:3, :3] @ p + to_local[:3, 3] for p in _long_edges(seat)])
    outward = -(to_local[:3, :3] @ seat.shoulder.normal)
    side = nearest_side(outward)
    along = body.runs
    wide = float(seat.high[AXIS_NUMBER[of.wide]] - seat.low[AXIS_NUMBER[of.wide]])
    turned = to_local[:3, :3] @ axis_vector(of.wide)
    lengthwise = abs(float(turned[AXIS_NUMBER[along]])) > 0.7
    values: dict[str, Value] = {
        "for": of.kind,
        "thick": joint.thick,
        "wide": wide,
        "deep": joint.long + relief,
        "side": side,
        "turned": _turned(turned if lengthwise else to_local[:3, :3] @ axis_vector(of.thick), along, outward),
        "off square": _off_square(to_local[:3, :3] @ side_vector(seat.end), outward),
    }
    centre = mouth.mean(axis=0)
    sizes = _mouth_sizes(body, mouth, side)
    callout = Callout("mortise", dict(values), round_point(centre), side)
    operation = Operation("mortise", dict(values))
    return Feature("mortise", "joint", sizes, (callout,), operation, of.name)


def _mouth_sizes(body: Body, mouth: Vector, side: Side) -> tuple[Size, ...]:
    low, high = mouth.min(axis=0), mouth.max(axis=0)
    sizes = placed(body, low, high, body.runs, side, "mortise")
    sizes += placed(body, low, high, _across(body, side), side, "mortise")
    return tuple(sizes)


def _across(body: Body, side: Side) -> Axis:
    if SIDE_AXIS[side] == body.runs:
        return body.wide
    return body.thick if SIDE_AXIS[side] == body.wide else body.wide


def _turned(direction: Vector, along: Axis, face: Vector) -> float:
    """How far the mouth of a mortise is turned, on its face, out of line with the part (degrees)."""
    run = axis_vector(along)
    flat = direction - face * float(direction @ face)
    line = run - face * float(run @ face)
    cosine = abs(float(flat @ line)) / float(np.linalg.norm(flat) * np.linalg.norm(line))
    return float(np.degrees(np.arccos(min(1.0, cosine))))


def _off_square(inward: Vector, face: Vector) -> float:
    """How far the way in leans from square to the face (degrees)."""
    return float(np.degrees(np.arccos(min(1.0, abs(float(inward @ face))))))
