"""Drawer slides: nothing is cut; they fill the gap beside a drawer, which must be as wide as they are thick."""

from __future__ import annotations

import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import bought_values
from model.fixings.seating import Seat, frame, seats
from model.frames import Vector, location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.drawer_slide import DrawerSlide
from plans.library import Bought, bought

OFF = 0.8  # mm the gap may differ: what the usual slides take up (common practice, 1/32 in)
REACH = 25.0  # mm: the widest gap that is taken for one meant for a slide
FRONT = np.array([0.0, -1.0, 0.0])


def fix(bodies: dict[str, list[Body]], entry: DrawerSlide, number: int) -> list[FixingMade]:
    """One in every gap between the two kinds."""
    size = bought("drawer_slides", entry.size)
    assert size is not None
    made = []
    for seat in list(seats(bodies[entry.of], bodies[entry.on], size["high"] / 2, REACH)):
        point = _front_end(seat, entry, size)
        low = np.array([-size["long"], -size["high"] / 2, 0.0])
        solid = kernel.box(low, np.array([0.0, size["high"] / 2, min(seat.gap, size["thick"])]))
        made.append(
            FixingMade(
                "drawer slide",
                number,
                seat.upper.name,
                seat.lower.name,
                (round_point(point),),
                round_point(seat.normal),
                bought_values(size),
                solid,
                (location(frame(point, seat.normal, FRONT)),),
            )
        )
    return made


def _front_end(seat: Seat, entry: DrawerSlide, size: Bought) -> Vector:
    """The middle of the slide's front end, on the face of the drawer."""
    if abs(seat.gap - size["thick"]) > OFF:
        raise KernelFault(
            f"the slide is {spell(size['thick'])} thick, and {seat.upper.name} and {seat.lower.name} stand "
            f"{spell(seat.gap)} apart"
        )
    if seat.width < size["high"] - OFF:
        raise KernelFault(
            f"the slide is {spell(size['high'])} high, and the two face each other over {spell(seat.width)}"
        )
    reach = float(np.ptp(seat.outline @ FRONT))
    if entry.set_back + size["long"] > reach + OFF:
        raise KernelFault(
            f"the slide is {spell(size['long'])} long, {spell(entry.set_back)} back, and there are "
            f"{spell(reach)} for it"
        )
    ahead = float((seat.outline @ FRONT).max()) - entry.set_back
    point: Vector = seat.middle + FRONT * (ahead - float(seat.middle @ FRONT))
    return point
