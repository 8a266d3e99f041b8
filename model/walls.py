"""How much wood is left round what is cut into a part."""

from __future__ import annotations

import numpy as np

from model.body import Body
from model.frames import Vector
from model.kernel import KernelFault, spell

# Common practice: a mortise keeps about a third of the stock on each side, 1/4 in of 3/4 in. The fit check warns of
# less; under 1/8 in the wall breaks out as it is cut, and there is no such joint.
WALL = 3.0  # mm beside a mortise or a hole
FLOOR = 3.0  # mm under it
NOISE = 0.01  # mm


def last_wood(body: Body, point: Vector, direction: Vector) -> float:
    """How far along `direction` from `point` the part is left for good (mm, piece frame); 0 where it is never met."""
    return max((end for _, end in body.wood(point, direction)), default=0.0)


def needs_wall(body: Body, what: str, points: list[Vector], direction: Vector, least: float = WALL) -> None:
    """Refuses a recess whose `points` have less than `least` mm of wood beside them along `direction`."""
    _needs(body, what, "of wall", points, direction, least)


def needs_floor(body: Body, what: str, points: list[Vector], direction: Vector) -> None:
    """Refuses a recess with less than `FLOOR` mm of wood under its deepest points."""
    _needs(body, what, "of wood under it", points, direction, FLOOR)


def _needs(body: Body, what: str, where: str, points: list[Vector], direction: Vector, least: float) -> None:
    left = min(last_wood(body, np.asarray(point), direction) for point in points)
    if left < least - NOISE:
        raise KernelFault(f"{what} leaves {spell(left)} {where} in {body.name}; at least {spell(least)} is wanted")
