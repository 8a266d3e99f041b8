"""Magnets: a shallow blind hole in each part, opposite each other, a disc flush in each."""

from __future__ import annotations

import cadquery as cq

from model.body import Body
from model.fixings.fitting import SLACK, Bore, bore_holes
from model.fixings.seating import frame, seats
from model.frames import location, round_point
from model.piece import FixingMade
from plans.fixings.magnet import Magnet
from plans.library import bought

GAP = 2.0  # mm: the widest gap between a door and what it shuts against


def fix(bodies: dict[str, list[Body]], entry: Magnet, number: int) -> list[FixingMade]:
    """Let a disc into both parts at each place; each disc counts."""
    size = bought("magnets", entry.size)
    assert size is not None
    across, thick = size["diameter"], size["thick"]
    made = []
    for seat in list(seats(bodies[entry.of], bodies[entry.to], across, GAP)):
        points = seat.row(entry.per_place, entry.inset)
        far = [point + seat.normal * seat.gap for point in points]
        hole = Bore("magnet", across, thick)
        bore_holes(seat.upper, points, -seat.normal, hole, seat.lower)
        bore_holes(seat.lower, far, seat.normal, hole, seat.upper)
        places = [frame(point, -seat.normal, seat.along) for point in points]
        places += [frame(point, seat.normal, seat.along) for point in far]
        made.append(
            FixingMade(
                "magnet",
                number,
                seat.upper.name,
                seat.lower.name,
                tuple(round_point(place[:3, 3]) for place in places),
                round_point(seat.normal),
                {"inch": size.inch, "mm": size.mm},
                cq.Solid.makeCylinder(across / 2 - SLACK, thick),
                tuple(location(place) for place in places),
                shown=False,
            )
        )
    return made
