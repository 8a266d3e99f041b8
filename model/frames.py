"""Directions, rotations and placings. Plain numpy: column vectors, millimetres, right-handed world frame."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side

if TYPE_CHECKING:
    import cadquery as cq

Vector = NDArray[np.float64]
Matrix = NDArray[np.float64]


def axis_vector(axis: Axis) -> Vector:
    """Unit vector of a direction of the piece."""
    vector = np.zeros(3)
    vector[AXIS_NUMBER[axis]] = 1.0
    return vector


def side_vector(side: Side) -> Vector:
    """Unit vector pointing out of the piece at a side."""
    return axis_vector(SIDE_AXIS[side]) * SIDE_SIGN[side]


def rotation_between(a: Vector, b: Vector) -> Matrix:
    """The smallest rotation (3x3) that turns unit vector `a` into unit vector `b`; they must not be opposite.

    Rodrigues' formula. The smallest turn treats the two faces of a leg that leans both ways alike.
    """
    v = np.cross(a, b)
    c = float(np.dot(a, b))
    skew = np.array([[0, -v[2], v[1]], [v[2], 0, -v[0]], [-v[1], v[0], 0]])
    turned: Matrix = np.eye(3) + skew + skew @ skew / (1.0 + c)
    return turned


def lean_rotation(foot_to: dict[Side, float]) -> Matrix:
    """Rotation (3x3) of a part whose foot goes to the given sides by angles seen square to each (degrees)."""
    up = np.array([0.0, 0.0, 1.0])
    for side, angle in foot_to.items():
        up = up - side_vector(side) * math.tan(math.radians(angle))
    return rotation_between(np.array([0.0, 0.0, 1.0]), up / np.linalg.norm(up))


def placing(rotation: Matrix, shift: Vector) -> Matrix:
    """4x4 matrix that rotates, then shifts."""
    matrix = np.eye(4)
    matrix[:3, :3] = rotation
    matrix[:3, 3] = shift
    return matrix


def location(matrix: Matrix) -> cq.Location:
    """A rigid 4x4 matrix as the kernel's placing."""
    import cadquery as cq
    from OCP.gp import gp_Trsf

    trsf = gp_Trsf()
    trsf.SetValues(*(float(value) for value in matrix[:3, :].flatten()))
    return cq.Location(trsf)


def matrix_of(at: cq.Location) -> Matrix:
    """The kernel's placing as a rigid 4x4 matrix."""
    trsf = at.wrapped.Transformation()
    matrix = np.eye(4)
    for row in range(3):
        for column in range(4):
            matrix[row, column] = trsf.Value(row + 1, column + 1)
    return matrix


def apply(matrix: Matrix, point: Vector | tuple[float, float, float]) -> Vector:
    """A point carried by a 4x4 matrix."""
    carried: Vector = matrix[:3, :3] @ np.asarray(point, dtype=float) + matrix[:3, 3]
    return carried


def turn(matrix: Matrix, direction: Vector | tuple[float, float, float]) -> Vector:
    """A direction turned by a 4x4 matrix."""
    turned: Vector = matrix[:3, :3] @ np.asarray(direction, dtype=float)
    return turned


def inverse(matrix: Matrix) -> Matrix:
    """The inverse of a rigid 4x4 matrix."""
    rotation = matrix[:3, :3].T
    return placing(rotation, -rotation @ matrix[:3, 3])


def mirror_matrix(axis: Axis) -> Matrix:
    """3x3 mirror in the centre plane square to `axis`."""
    mirror = np.eye(3)
    number = AXIS_NUMBER[axis]
    mirror[number, number] = -1.0
    return mirror


def nearest_side(direction: Vector | tuple[float, float, float]) -> Side:
    """The side a direction mostly points to."""
    vector = np.asarray(direction, dtype=float)
    best: Side = max(SIDE_AXIS, key=lambda side: float(np.dot(side_vector(side), vector)))
    return best


def round_point(point: Vector) -> tuple[float, float, float]:
    """A point as plain floats, for a record; never a zero with a sign."""
    return (float(point[0]) + 0.0, float(point[1]) + 0.0, float(point[2]) + 0.0)
