"""Shelf pins: rows of blind holes in an upright, a pin close under each corner of a shelf."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model.body import Body
from model.fixings.fitting import SLACK, Bore, bore_holes
from model.fixings.seating import Seat, frame, seats
from model.frames import Vector, location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.shelf_pin import ShelfPin
from plans.library import bought

GAP = 3.0  # mm a loose shelf may end short of the upright
LEAST = 6.0  # mm: a thinner shelf is no shelf
DOWN = np.array([0.0, 0.0, -1.0])


def fix(bodies: dict[str, list[Body]], entry: ShelfPin, number: int) -> list[FixingMade]:
    """Bore two rows at each end of each shelf, set out from the place where the shelf stands."""
    size = bought("shelf_pins", entry.size)
    assert size is not None
    radius, deep, long = size["diameter"] / 2, size["deep"], size["long"]
    made = []
    for seat in list(seats(bodies[entry.under], bodies[entry.into], LEAST, GAP)):
        pins = _pins(seat, entry.inset, radius)
        for pin in pins:
            holes = [pin + DOWN * entry.spacing * step for step in range(-entry.up, entry.down + 1)]
            bore_holes(seat.lower, holes, seat.normal, Bore("shelf pin", 2 * radius, deep), seat.upper)
        made.append(
            FixingMade(
                "shelf pin",
                number,
                seat.lower.name,
                seat.upper.name,
                tuple(round_point(pin) for pin in pins),
                round_point(seat.normal),
                {"inch": size.inch, "mm": size.mm},
                cq.Solid.makeCylinder(radius - SLACK, long - SLACK, cq.Vector(0, 0, deep - long)),
                tuple(location(frame(pin, seat.normal, DOWN)) for pin in pins),
            )
        )
    return made


def _pins(seat: Seat, inset: float, radius: float) -> list[Vector]:
    """The two places on the upright's face, a pin's radius below the shelf, `inset` from its edges."""
    level = np.cross(seat.normal, DOWN)
    if np.linalg.norm(level) < 0.99:
        raise KernelFault(f"{seat.lower.name} does not stand upright beside {seat.upper.name}")
    ahead = seat.outline @ level
    if np.ptp(ahead) <= 2 * inset:
        raise KernelFault(
            f"{seat.upper.name} is {spell(np.ptp(ahead))} deep there: no room for pins {spell(inset)} from both edges"
        )
    face = float(seat.middle @ seat.normal) + seat.gap
    low = float(seat.outline[:, 2].min()) - radius
    ways = (float(ahead.min()) + inset, float(ahead.max()) - inset)
    return [seat.normal * face + level * way - DOWN * low for way in ways]
