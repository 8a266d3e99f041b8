"""Brads and nails: nothing is bored; they must end inside the part they hold to."""

from __future__ import annotations

import cadquery as cq

from model.body import Body
from model.fixings.seating import depth_behind, frame, must_hold, seats
from model.frames import location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.nail import Nail
from plans.library import bought

ROOM = 4.0  # a strip narrower than this many diameters splits (common practice)


def fix(bodies: dict[str, list[Body]], entry: Nail, number: int) -> list[FixingMade]:
    """Drive them along every strip where the two kinds touch."""
    size = bought("nails", entry.size)
    assert size is not None
    made = []
    for seat in list(seats(bodies[entry.through], bodies[entry.into], ROOM * size["diameter"])):
        points = seat.row(entry.per_place)
        depth = depth_behind(seat.upper, points[0], seat.normal)
        if entry.long <= depth:
            raise KernelFault(
                f"the nail ends inside {seat.upper.name}: it is {spell(entry.long)} long and has {spell(depth)} of "
                "wood to go through"
            )
        must_hold(seat.lower, points[0], seat.normal, entry.long - depth, "nail")
        heads = [point - seat.normal * depth for point in points]
        made.append(
            FixingMade(
                "nail",
                number,
                seat.upper.name,
                seat.lower.name,
                tuple(round_point(head) for head in heads),
                round_point(seat.normal),
                {"inch": size.inch, "mm": size.mm, "long": entry.long},
                cq.Solid.makeCylinder(size["diameter"] / 2, entry.long),
                tuple(location(frame(head, seat.normal, seat.along)) for head in heads),
                shown=False,
                bored=False,
            )
        )
    return made
