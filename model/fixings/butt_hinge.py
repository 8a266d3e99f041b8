"""Butt hinges: a shallow recess for a leaf in each of the two parts, the pin outside."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import CLEAR, SLACK, bought_values, let_in
from model.fixings.seating import Seat, frame, seats
from model.frames import Matrix, Vector, location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.butt_hinge import ButtHinge
from plans.library import Bought, bought

GAP = 3.0  # mm: the widest gap between lid or door and what it is hung on
LEAST_LIP = 1.5  # mm of wood beyond the edge of a leaf
LEAST = 6.0  # mm


def fix(bodies: dict[str, list[Body]], entry: ButtHinge, number: int) -> list[FixingMade]:
    """Hang every part of the one kind on the other wherever an edge of theirs runs to the knuckle side."""
    size = bought("butt_hinges", entry.size)
    assert size is not None
    made = []
    for seat in list(seats(bodies[entry.of], bodies[entry.on], LEAST, GAP)):
        out = _out(seat, entry)
        if out is None:
            continue
        gap = seat.gap
        _limits(seat, size, gap)
        middles = [
            point + seat.normal * gap / 2 + out * seat.width / 2
            for point in seat.row(entry.per_place, entry.inset + size["long"] / 2)
        ]
        places = [frame(middle, seat.normal, out) for middle in middles]
        _let_in(seat, size, places, gap)
        made.append(
            FixingMade(
                "butt hinge",
                number,
                seat.upper.name,
                seat.lower.name,
                tuple(round_point(middle) for middle in middles),
                round_point(seat.normal),
                bought_values(size),
                _plain(size),
                tuple(location(place) for place in places),
                pin=((size["knuckle"] / 2 + 0.5, 0.0, 0.0), (0.0, 1.0, 0.0)),
            )
        )
    return made


def _out(seat: Seat, entry: ButtHinge) -> Vector | None:
    """The way across the strip to the knuckle side; None where the strip does not run along that side."""
    wanted = seat.lower.outward(entry.knuckle)
    share = float(wanted @ seat.across)
    return None if abs(share) < 0.9 else seat.across * np.sign(share)


def _limits(seat: Seat, size: Bought, gap: float) -> None:
    lip = seat.width - size["leaf"]
    if lip < LEAST_LIP:
        raise KernelFault(
            f"the leaf of the hinge is {spell(size['leaf'])} wide and {seat.upper.name} and {seat.lower.name} meet "
            f"over {spell(seat.width)}; at least {spell(LEAST_LIP)} is to be left beyond it"
        )
    if gap >= 2 * size["thick"]:
        raise KernelFault(
            f"the gap is {spell(gap)}, and the closed hinge only {spell(2 * size['thick'])} thick: nothing is let in"
        )


def _let_in(seat: Seat, size: Bought, places: list[Matrix], gap: float) -> None:
    """Boxes from the middle of the gap into each part, as deep as one leaf is thick."""
    half = size["long"] / 2 + SLACK
    leaf, thick = size["leaf"] + SLACK, size["thick"] + SLACK
    for body, sign in ((seat.upper, -1.0), (seat.lower, 1.0)):
        z = sorted((-sign * (gap / 2 + SLACK / 2), sign * thick))
        box = kernel.box(np.array([-leaf, -half, z[0]]), np.array([CLEAR, half, z[1]]))
        tools = [box.moved(location(place)) for place in places]
        other = seat.lower if body is seat.upper else seat.upper
        let_in(body, tools, -seat.normal * sign, "hinge leaf", other)


def _plain(size: Bought) -> cq.Shape:
    """Both leaves closed as one block, and the knuckle round the pin outside."""
    long, thick, pin = size["long"], size["thick"], size["knuckle"]
    leaves = kernel.box(np.array([-size["leaf"], -long / 2, -thick]), np.array([pin / 2 + 0.5, long / 2, thick]))
    centre = cq.Vector(pin / 2 + 0.5, -long / 2, 0)
    return kernel.fuse(leaves, cq.Solid.makeCylinder(pin / 2, long, centre, cq.Vector(0, 1, 0)), "the hinge")
