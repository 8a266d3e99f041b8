"""Which way the grain of a part runs in the piece, and which parts hold on to each other."""

from __future__ import annotations

from model.frames import Vector, axis_vector, matrix_of
from model.piece import JointMade, Part, Piece
from plans.sides import Axis, third_axis


def turned_axis(part: Part, axis: Axis) -> Vector:
    """An axis of a part's standing frame, in the piece (unit vector)."""
    direction: Vector = matrix_of(part.at)[:3, :3] @ axis_vector(axis)
    return direction


def grain(part: Part) -> Vector:
    """The way the grain of a part runs, in the piece."""
    return turned_axis(part, part.spec.runs)


def wide_axis(part: Part) -> Vector:
    """The way its width is measured, in the piece."""
    return turned_axis(part, third_axis(part.spec.runs, part.spec.thick))


def thick_axis(part: Part) -> Vector:
    """The way its thickness is measured, in the piece."""
    return turned_axis(part, part.spec.thick)


def joined_pairs(piece: Piece) -> dict[frozenset[str], JointMade]:
    """The joint between each two parts that have one."""
    return {frozenset((joint.a, joint.b)): joint for joint in piece.joints}


def linked_pairs(piece: Piece) -> set[frozenset[str]]:
    """Pairs of parts that a joint or a fixing holds together."""
    return {*joined_pairs(piece), *(frozenset((fixing.through, fixing.into)) for fixing in piece.fixings)}
