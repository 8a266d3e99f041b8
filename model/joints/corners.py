"""Corners in which the ends of two boards lie through each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model.body import Body
from model.frames import Vector, axis_vector, nearest_side, round_point, side_vector
from model.joints.joining import centre_of, crossings, reach_along
from model.kernel import KernelFault, spell
from model.piece import Point, Size
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side

SQUARE = 1e-6  # 1 - cos
NEAR = 0.01  # mm
LEAST = 3.0  # mm: a finger, pin or lap thinner than this breaks off (common practice: 1/8 in)


@dataclass(frozen=True)
class Corner:
    """Where two ends lie through each other; directions are unit vectors in the piece."""

    of: Body
    into: Body
    shared: cq.Solid  # in the piece
    out_of: Vector  # out of the end of `of` that lies here
    out_into: Vector
    width: Vector  # along the corner: to the right, to the back or up

    @property
    def where(self) -> Point:
        """The middle, in the piece."""
        return centre_of(self.shared)

    def reach(self, direction: Vector) -> tuple[float, float]:
        """How far the corner reaches along a direction."""
        return reach_along(self.shared, direction)

    def size(self, direction: Vector) -> float:
        """Size of the corner along a direction (mm)."""
        low, high = self.reach(direction)
        return high - low


def corners(first: list[Body], second: list[Body]) -> Iterator[Corner]:
    """Every corner of two kinds of part."""
    for of, into, shared in list(crossings(first, second)):
        out_of, out_into = _out(of, shared), _out(into, shared)
        if abs(float(out_of @ out_into)) > 1 - SQUARE:
            raise KernelFault(f"{of.name} and {into.name} run the same way: they make no corner")
        width = np.cross(out_of, out_into)
        width = width / np.linalg.norm(width)
        forward = width if float(width[int(np.argmax(np.abs(width)))]) > 0 else -width
        yield Corner(of, into, shared, out_of, out_into, forward)


def board_corners(first: list[Body], second: list[Body]) -> Iterator[Corner]:
    """Corners of two boards, each square to the other and flush with its end."""
    for corner in corners(first, second):
        of, into = corner.of, corner.into
        faces = (of.at[:3, :3] @ axis_vector(of.thick), into.at[:3, :3] @ axis_vector(into.thick))
        for face, out in zip(faces, (corner.out_into, corner.out_of), strict=True):
            if abs(float(face @ out)) < 1 - SQUARE:
                raise KernelFault(f"{of.name} and {into.name} do not stand square to each other, face to end")
        yield corner


def _out(body: Body, shared: cq.Solid) -> Vector:
    """Out of the end that lies in the corner, which has to be there whole."""
    middle = np.array(centre_of(shared))
    centre = body.at[:3, :3] @ body.blank.middle() + body.at[:3, 3]
    out = max((body.outward(end) for end in body.ends), key=lambda way: float(way @ (middle - centre)))
    past = reach_along(body.world(body.sharp), out)[1] - reach_along(shared, out)[1]
    if past > NEAR:
        raise KernelFault(f"{body.name} runs {spell(past)} past the corner")
    return out


def must_be_at_least(size: float, what: str, least: float = LEAST) -> None:
    """Refuse what would break off."""
    if size < least - 1e-6:
        raise KernelFault(f"{what} is {spell(size)}; at least {spell(least)} is wanted")


def local_side(body: Body, direction: Vector) -> Side:
    """The side of a part that a direction of the piece points out of."""
    return nearest_side(body.back[:3, :3] @ direction)


def span(body: Body, name: str, start: Vector, direction: Vector, long: float, face: Side, role: str = "size") -> Size:
    """A size from a point of the piece, `long` mm in a direction of it."""
    a, b = (body.back[:3, :3] @ p + body.back[:3, 3] for p in (start, start + direction * long))
    axis = SIDE_AXIS[local_side(body, direction)]
    return Size(name, abs(float((b - a)[AXIS_NUMBER[axis]])), axis, round_point(a), round_point(b), face, role)  # type: ignore[arg-type]


def corner_point(corner: Corner, *ways: Vector) -> Vector:
    """The corner of the shared solid that lies furthest in three directions square to each other (piece)."""
    return sum((way * corner.reach(way)[1] for way in ways), np.zeros(3))


def point_on(body: Body, point: Vector) -> Point:
    """A point of the piece in the standing frame of a part."""
    return round_point(body.back[:3, :3] @ point + body.back[:3, 3])


def datum_way(body: Body, corner: Corner) -> Vector:
    """Along the corner, away from the side of a part from which places across it are measured (piece)."""
    axis = SIDE_AXIS[local_side(body, corner.width)]
    return -(body.at[:3, :3] @ side_vector(body.datum_side(axis)))
