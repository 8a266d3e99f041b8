"""Machine bolts: a clear hole through the upper part, a threaded insert in the lower."""

from __future__ import annotations

import cadquery as cq

from model import kernel
from model.body import Body
from model.fixings.fitting import CLEAR, SLACK, Bore, bore_holes
from model.fixings.seating import INSIDE, Seat, depth_behind, frame, seats
from model.frames import location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.machine_bolt import MachineBolt
from plans.library import Bought, bought

ROOM = 2.0  # a strip narrower than this many bores of the insert is no place for a bolt (common practice)
WASHER = 1.5  # a sunk head stands in a hole this much wider, for a washer (common practice)
LEAST_TURNS = 1.0  # a thread holds over at least its own diameter (common practice)


def fix(bodies: dict[str, list[Body]], entry: MachineBolt, number: int) -> list[FixingMade]:
    """Bolt the two kinds together wherever they touch over a strip wide enough for the insert."""
    size = bought("threads", entry.size)
    assert size is not None
    return [
        _bolted(seat, entry, size, number)
        for seat in list(seats(bodies[entry.through], bodies[entry.into], ROOM * size["insert"]))
    ]


def _bolted(seat: Seat, entry: MachineBolt, size: Bought, number: int) -> FixingMade:
    points = seat.row(entry.per_place)
    depth, sunk = depth_behind(seat.upper, points[0], seat.normal), entry.sunk or 0.0
    bite = entry.long - (depth - sunk)
    _limits(seat, entry, size, depth, bite)
    heads = [point - seat.normal * depth for point in points]
    clear = Bore("machine bolt", size["clear"], None, sunk, WASHER * size["head"])
    bore_holes(seat.upper, heads, seat.normal, clear, seat.lower)
    insert = Bore("threaded insert", size["insert"], max(size["insert_long"], bite + CLEAR))
    bore_holes(seat.lower, points, seat.normal, insert, seat.upper)
    return FixingMade(
        "machine bolt",
        number,
        seat.upper.name,
        seat.lower.name,
        tuple(round_point(head) for head in heads),
        round_point(seat.normal),
        {"inch": size.inch, "mm": size.mm, "long": entry.long, "with": "a threaded insert"},
        _plain(size, depth, sunk, bite),
        tuple(location(frame(head, seat.normal, seat.along)) for head in heads),
    )


def _limits(seat: Seat, entry: MachineBolt, size: Bought, depth: float, bite: float) -> None:
    if entry.sunk is not None and entry.sunk > depth - INSIDE:
        raise KernelFault(f"the wider hole goes right through {seat.upper.name}, which is {spell(depth)} there")
    if bite < LEAST_TURNS * size["diameter"]:
        raise KernelFault(
            f"the bolt reaches {spell(max(bite, 0))} into {seat.lower.name}; "
            f"at least {spell(LEAST_TURNS * size['diameter'])} is wanted"
        )


def _plain(size: Bought, depth: float, sunk: float, bite: float) -> cq.Shape:
    """Head, shank and the insert round its end."""
    thread = size["diameter"]
    head = cq.Solid.makeCylinder(size["head"] / 2, thread, cq.Vector(0, 0, sunk - thread))
    shank = cq.Solid.makeCylinder(thread / 2, depth - sunk + bite, cq.Vector(0, 0, sunk))
    insert = cq.Solid.makeCylinder(size["insert"] / 2 - SLACK, size["insert_long"] - SLACK, cq.Vector(0, 0, depth))
    return kernel.one_solid(head.fuse(shank, insert), "the bolt")
