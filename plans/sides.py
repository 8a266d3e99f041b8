"""The six sides and the three directions of a piece, as a maker says them.

World frame, millimetres: x runs left to right, y front to back, z up from the floor.
"""

from typing import Literal, get_args

Axis = Literal["left-right", "front-back", "up-down"]
Side = Literal["left", "right", "front", "back", "bottom", "top"]

AXES: tuple[Axis, ...] = get_args(Axis)
SIDES: tuple[Side, ...] = get_args(Side)

AXIS_NUMBER: dict[Axis, int] = {"left-right": 0, "front-back": 1, "up-down": 2}
SIDE_AXIS: dict[Side, Axis] = {
    "left": "left-right",
    "right": "left-right",
    "front": "front-back",
    "back": "front-back",
    "bottom": "up-down",
    "top": "up-down",
}
SIDE_SIGN: dict[Side, int] = {
    "left": -1,
    "right": 1,
    "front": -1,
    "back": 1,
    "bottom": -1,
    "top": 1,
}
OPPOSITE: dict[Side, Side] = {
    "left": "right",
    "right": "left",
    "front": "back",
    "back": "front",
    "bottom": "top",
    "top": "bottom",
}


def side_of(axis: Axis, sign: float) -> Side:
    """The side that faces along `axis` in the direction of `sign`."""
    wanted = 1 if sign > 0 else -1
    return next(s for s in SIDES if SIDE_AXIS[s] == axis and SIDE_SIGN[s] == wanted)


def sides_of(axis: Axis) -> tuple[Side, Side]:
    """Both sides square to `axis`, the negative one first."""
    return side_of(axis, -1), side_of(axis, 1)


def third_axis(a: Axis, b: Axis) -> Axis:
    """The direction square to both `a` and `b`."""
    return next(axis for axis in AXES if axis not in (a, b))
