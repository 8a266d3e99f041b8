"""Lid stays: pilot holes in the lid and in the side, the folded stay between them as one plain block."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import SLACK, Bore, bore_holes, bought_values, pilot
from model.fixings.seating import Seat, frame, middle_of, seats
from model.frames import Vector, location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.lid_stay import LidStay
from plans.library import Bought, bought

GAP = 3.0  # mm: the widest gap between a lid and the side it shuts on
LEAST = 6.0  # mm: a thinner side is no place for screws
FLANGE = 0.25  # share of the stay's length over which its plate lies against the lid (common practice)


def fix(bodies: dict[str, list[Body]], entry: LidStay, number: int) -> list[FixingMade]:
    """One on every part of the one kind that a lid shuts on, along the way from the hinge to the front."""
    size = bought("lid_stays", entry.size)
    assert size is not None
    made = []
    for seat in list(seats(bodies[entry.of], bodies[entry.on], LEAST, GAP)):
        out = seat.lower.outward(entry.hinge)
        share = float(out @ seat.along)
        if abs(share) < 0.9:
            continue  # the edge along the hinge, or the front
        made.append(_hung(seat, entry, size, -seat.along * np.sign(share), number))
    return made


def _hung(seat: Seat, entry: LidStay, size: Bought, way: Vector, number: int) -> FixingMade:
    """`way` leads along the side, from the hinge."""
    room = seat.length - entry.inset
    if size["long"] > room:
        raise KernelFault(
            f"the stay is {spell(size['long'])} long, folded, and {seat.lower.name} leaves {spell(max(room, 0))} for it"
        )
    inner = seat.across if float((middle_of(seat.upper) - seat.middle) @ seat.across) >= 0 else -seat.across
    # a lid with a curved edge leaves a strip whose middle is not halfway
    over, start = float((seat.outline @ inner).max()), float((seat.outline @ way).min()) + entry.inset
    corner = seat.middle + inner * (over - float(seat.middle @ inner)) + way * (start - float(seat.middle @ way))
    _bore(seat, size, corner, inner, way, entry.size)
    place = frame(corner, seat.normal, inner)
    return FixingMade(
        "lid stay",
        number,
        seat.upper.name,
        seat.lower.name,
        (round_point(corner),),
        round_point(seat.normal),
        bought_values(size),
        _plain(size, float(place[:3, 1] @ way)),
        (location(place),),
    )


def _bore(seat: Seat, size: Bought, corner: Vector, inner: Vector, way: Vector, asked: str) -> None:
    """Two pilots in the side at the hinge end, two in the lid at the other."""
    deep = size["screw_long"] - size["thick"] / 4  # its plates are thinner than the folded arms
    steps = [size["long"] * FLANGE * share for share in (0.25, 0.75)]
    low = [corner + way * step + seat.normal * size["high"] / 2 for step in steps]
    above = [corner + way * (size["long"] - step) + inner * size["flange"] / 2 for step in steps]
    for body, mouths, inward, other in (
        (seat.lower, low, -inner, seat.upper),
        (seat.upper, above, -seat.normal, seat.lower),
    ):
        bore_holes(body, mouths, inward, Bore("lid stay screw", pilot(body, size, asked), deep), other)


def _plain(size: Bought, sign: float) -> cq.Shape:
    """The folded arms against the side, and the plate under the lid: x into the chest, z down, y along by `sign`."""
    long, thick = size["long"], size["thick"]
    arms = kernel.box(np.array([SLACK, 0, SLACK]), np.array([thick, long, size["high"]]))
    plate = kernel.box(np.array([SLACK, long * (1 - FLANGE), SLACK]), np.array([size["flange"], long, thick / 4]))
    solid = kernel.fuse(arms, plate, "the lid stay")
    return solid if sign > 0 else solid.mirror("XZ")
