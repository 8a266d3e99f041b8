"""Wall straps: pilot holes in the piece, a strap bent square with one leg against the wall."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import Bore, bore_holes, bought_values, pilot
from model.fixings.seating import frame
from model.frames import Vector, apply, location, round_point, side_vector
from model.piece import FixingMade
from plans.fixings.wall_strap import WallStrap
from plans.library import Bought, bought
from plans.sides import AXIS_NUMBER, SIDE_AXIS

FIRST, LAST = 0.35, 0.8  # of a leg: where its screws stand, from the bend (common practice)


def fix(bodies: dict[str, list[Body]], entry: WallStrap, number: int) -> list[FixingMade]:
    """One on every part of the kind."""
    size = bought("wall_straps", entry.size)
    assert size is not None
    made = []
    for body in bodies[entry.on]:
        out, wall = body.outward(entry.side), body.outward(entry.wall)
        bend = apply(body.at, _bend(body, entry))
        mouths = [bend - wall * size["leg"] * share for share in (FIRST, LAST)]
        deep = size["screw_long"] - size["thick"]
        bore_holes(body, mouths, -out, Bore("wall strap screw", pilot(body, size, entry.size), deep))
        made.append(
            FixingMade(
                "wall strap",
                number,
                body.name,
                body.name,
                (round_point(bend),),
                round_point(-out),
                bought_values(size),
                _plain(size),
                (location(frame(bend, out, wall)),),
                last=True,
            )
        )
    return made


def _bend(body: Body, entry: WallStrap) -> Vector:
    """Where the strap turns up: the edge between the side and the wall (standing frame)."""
    place = body.blank.middle()
    for side, distance in {entry.side: 0.0, entry.wall: 0.0, **entry.at}.items():
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        place[number] = body.blank.at(side) - side_vector(side)[number] * distance
    return place


def _plain(size: Bought) -> cq.Shape:
    """Both legs: z out of the piece, x towards the wall."""
    leg, thick, half = size["leg"], size["thick"], size["wide"] / 2
    foot = kernel.box(np.array([-leg, -half, 0.0]), np.array([0.0, half, thick]))
    up = kernel.box(np.array([-thick, -half, 0.0]), np.array([0.0, half, leg]))
    return kernel.fuse(foot, up, "the wall strap")
