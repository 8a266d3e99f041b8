"""Tenons and tongues: where they stand on an end, and the one tool that makes both halves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, apply, axis_vector, inverse, round_point, side_vector, turn
from model.joints.joining import end_plane, met_by
from model.kernel import KernelFault, Plane, spell
from model.piece import Point
from model.walls import last_wood
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Axis, Side

NEAR = 1e-6  # mm
INSIDE = 10.0  # mm the tool starts behind the shoulder, inside the tenoned part
LEAST_WIDTH = 1.0  # mm


@dataclass(frozen=True)
class Seat:
    """One tenon to be made: its shoulder, the rectangle of its section and where it stops (standing frame of `of`)."""

    of: Body
    into: Body
    end: Side
    shoulder: Plane  # the normal points the way the tenon goes in
    stop: Plane  # its end; the same way round
    low: Vector
    high: Vector

    @property
    def long(self) -> float:
        """How far the middle of the tenon reaches past the face it meets, square to that face (mm)."""
        middle = np.mean(long_edges(self), axis=0)
        run = side_vector(self.end)
        along = -self.stop.height(middle) / float(self.stop.normal @ run)
        return float(along * (self.shoulder.normal @ run))

    def width(self, axis: Axis) -> float:
        """Size of the section across the part (mm)."""
        return float(self.high[AXIS_NUMBER[axis]] - self.low[AXIS_NUMBER[axis]])

    @property
    def where(self) -> Point:
        """The middle of the mouth, in the piece."""
        return round_point(apply(self.of.at, np.mean(long_edges(self), axis=0)))

    @property
    def into_frame(self) -> Vector:
        """4 x 4: from the standing frame of `of` to that of `into`."""
        return inverse(self.into.at) @ self.of.at


def find_seats(
    bodies: Iterable[Body],
    others: list[Body],
    ends: tuple[Side, ...],
    thick: float,
    shoulders: Mapping[Side, float],
) -> list[Seat]:
    """Every end that meets another part, with the section of its tenon; it stops at the shoulder yet."""
    found = []
    for body in bodies:
        for end in ends or body.ends:
            closing = end_plane(body, end)
            into = None if closing is None else met_by(closing[1], others)
            if closing is None or into is None:
                continue
            low, high = _section(body, thick, shoulders, body.local(closing[0]))
            plane = body.local_plane(closing[1])
            found.append(Seat(body, into, end, plane, plane, low, high))
    return found


def blind_stop(seat: Seat, long: float) -> Plane:
    """The end of a tenon `long` past the face it meets, parallel to that face."""
    return Plane(seat.shoulder.point + seat.shoulder.normal * long, seat.shoulder.normal)


def far_face(seat: Seat) -> Plane:
    """The face by which a tenon that goes right through leaves the other part (standing frame of `of`)."""
    into = seat.into
    run = turn(seat.of.at, side_vector(seat.end))
    middle = np.array(seat.where)
    exit_point = middle + run * last_wood(into, middle - run, run) - run
    faces = [
        plane
        for _, plane in kernel.flat_faces(into.world(into.sharp))
        if float(plane.normal @ run) > 0.5 and abs(plane.height(exit_point)) < 1e-4
    ]
    if not faces:
        raise KernelFault(f"the tenon of {seat.of.name} leaves {into.name} by no flat face")
    return seat.of.local_plane(max(faces, key=lambda plane: float(plane.normal @ run)))


def _section(body: Body, thick: float, shoulders: Mapping[Side, float], face: cq.Shape) -> tuple[Vector, Vector]:
    """Corners of the tenon's section; its place along the run is open.

    Shoulders are set in from the true edges of the part, as its width is; a bevelled edge leaves less of them.
    """
    low, high = body.blank.low.copy(), body.blank.high.copy()
    for side, shoulder in shoulders.items():
        column_number = AXIS_NUMBER[SIDE_AXIS[side]]
        if side_vector(side)[column_number] > 0:
            high[column_number] -= shoulder
        else:
            low[column_number] += shoulder
    across = AXIS_NUMBER[body.thick]
    room = high[across] - low[across]
    if thick >= room:
        raise KernelFault(f"a tenon {spell(thick)} thick leaves no cheek on {body.name}, which is {spell(room)}")
    middle = (low[across] + high[across]) / 2
    low[across], high[across] = middle - thick / 2, middle + thick / 2
    if high[AXIS_NUMBER[body.wide]] - low[AXIS_NUMBER[body.wide]] <= LEAST_WIDTH:
        raise KernelFault(f"the shoulders leave no tenon on {body.name}")
    inside_the_end(body, face, low, high)
    return low, high


def inside_the_end(body: Body, face: cq.Shape, low: Vector, high: Vector) -> None:
    """A tenon must not stand out of the end it grows from, which a bevel may have made smaller."""
    corners = kernel.vertices(face)
    for axis in (body.wide, body.thick):
        number = AXIS_NUMBER[axis]
        column = np.sort(corners[:, number])
        half = len(column) // 2
        if low[number] < column[half - 1] - NEAR or high[number] > column[half] + NEAR:
            raise KernelFault(f"the tenon of {body.name} stands out past its sloping edge; give it more shoulder")


def tool(seat: Seat, fit: float = 0.0, more: float = 0.0) -> cq.Solid:
    """The tenon, grown by `fit` on its four cheeks and by `more` at its end."""
    normal = seat.shoulder.normal
    root = Plane(seat.shoulder.point - normal * INSIDE, normal)
    tip = Plane(seat.stop.point + seat.stop.normal * more, seat.stop.normal)
    low, high = seat.low - fit, seat.high + fit
    return kernel.one_solid(kernel.bar(low, high, AXIS_NUMBER[seat.of.runs], root, tip), "the tenon")


def on_shoulder(seat: Seat, wide: float, thick: float) -> Vector:
    """The point of the shoulder plane at these places across the part (standing frame of `of`)."""
    point = np.zeros(3)
    point[AXIS_NUMBER[seat.of.wide]], point[AXIS_NUMBER[seat.of.thick]] = wide, thick
    run = axis_vector(seat.of.runs)
    found: Vector = point - run * (seat.shoulder.height(point) / float(seat.shoulder.normal @ run))
    return found


def long_edges(seat: Seat) -> list[Vector]:
    """The four points where the edges of the tenon pass through the shoulder (standing frame of `of`)."""
    wide, thick = AXIS_NUMBER[seat.of.wide], AXIS_NUMBER[seat.of.thick]
    return [
        on_shoulder(seat, float(w), float(t))
        for w in (seat.low[wide], seat.high[wide])
        for t in (seat.low[thick], seat.high[thick])
    ]
