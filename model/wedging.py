"""Wedged tenons: saw cuts in the end of the tenon, and a mortise that is flared on its far side."""

from __future__ import annotations

from dataclasses import replace

import cadquery as cq
import numpy as np

from model import kernel
from model.frames import Vector, axis_vector, round_point, side_vector
from model.kernel import Plane
from model.piece import Callout, Feature, LoosePiece, Operation, Size, Value
from model.tenon_seat import INSIDE, Seat, on_shoulder, tool
from plans.joints.mortise_and_tenon import Wedges
from plans.sides import AXIS_NUMBER

NEAR = 1e-6  # mm
KERF = 1.6  # mm, about 1/16 in: a hand saw (common practice)
SAWN = 2 / 3  # of the length of the tenon (common practice)
FROM_EDGE = 1 / 6  # of the width of the tenon, of two outer cuts (common practice)


def flare(seat: Seat, wedges: Wedges, fit: float, deep: float) -> list[cq.Shape]:
    """What widens the mortise towards the far face: `flare` on each end there, nothing at the mouth.

    `deep` is how thick the mortised part is along the tenon (mm). Standing frame of `of`.
    """
    run = side_vector(seat.end)
    wide, thick = axis_vector(seat.of.wide), axis_vector(seat.of.thick)
    number, across = AXIS_NUMBER[seat.of.wide], AXIS_NUMBER[seat.of.thick]
    start = on_shoulder(seat, 0.0, float(seat.low[across]))
    past = deep + INSIDE
    slope = wedges.flare / deep
    found: list[cq.Shape] = []
    for edge, sign in ((float(seat.low[number]) - fit, -1.0), (float(seat.high[number]) + fit, 1.0)):
        mouth = start + wide * edge - thick * fit
        corners = [mouth, mouth + run * past, mouth + run * past + wide * sign * slope * past]
        outline = cq.Wire.makePolygon([kernel.vector(corner) for corner in corners], close=True)
        way = thick * (seat.width(seat.of.thick) + 2 * fit)
        found.append(cq.Solid.extrudeLinear(outline, [], kernel.vector(way)))
    return found


def saw(seat: Seat, wedges: Wedges) -> LoosePiece:
    """Saw the end of the tenon for its wedges; gives the wedges."""
    body = seat.of
    number = AXIS_NUMBER[body.wide]
    deep = seat.long * SAWN
    foot = Plane(seat.stop.point - seat.stop.normal * deep, -seat.stop.normal)
    cuts: list[cq.Shape] = []
    places = _places(seat, wedges.count)
    for place in places:
        low, high = seat.low.copy(), seat.high.copy()
        low[number], high[number] = place - KERF / 2, place + KERF / 2
        cuts += kernel.less(tool(replace(seat, low=low, high=high), 0.0, 1.0), kernel.beyond(foot))
    body.cut(cuts, f"the saw cuts in the tenon of {body.name}")
    _note(seat, places, deep)
    thick_end = KERF + 2 * wedges.flare / wedges.count
    values: dict[str, Value] = {
        "wide": seat.width(body.thick),
        "long": deep,
        "thick": thick_end,
        "wood": body.spec.wood,
    }
    return LoosePiece("wedge", wedges.count, values)


def _places(seat: Seat, count: int) -> list[float]:
    number = AXIS_NUMBER[seat.of.wide]
    low, high = float(seat.low[number]), float(seat.high[number])
    if count == 1:
        return [(low + high) / 2]
    first, last = low + (high - low) * FROM_EDGE, high - (high - low) * FROM_EDGE
    return [float(place) for place in np.linspace(first, last, count)]


def _note(seat: Seat, places: list[float], deep: float) -> None:
    body = seat.of
    side = body.datum_side(body.thick)
    along, number = AXIS_NUMBER[body.runs], AXIS_NUMBER[body.wide]
    middle = float((seat.low + seat.high)[AXIS_NUMBER[body.thick]] / 2)
    run = side_vector(seat.end)

    def tip(place: float) -> Vector:
        foot = on_shoulder(seat, place, middle)
        return foot - run * (seat.stop.height(foot) / float(seat.stop.normal @ run))

    end = tip(places[0])
    bottom = end - run * (deep / float(seat.stop.normal @ run))
    sizes = [
        Size("saw cut depth", abs(float(end[along] - bottom[along])), body.runs, *_points(bottom, end), side, "size")
    ]
    for place in places:
        low, high = float(seat.low[number]), float(seat.high[number])
        edge = tip(low if place - low < high - place + NEAR else high)
        there = edge.copy()
        there[number] = place
        from_edge = abs(float(there[number] - edge[number]))
        sizes.append(Size("saw cut place", from_edge, body.wide, *_points(edge, there), side, "size"))
    values: dict[str, Value] = {"kerf": KERF, "deep": deep, "count": len(places)}
    row = tuple(round_point((end + bottom) / 2 + tip(place) - end) for place in places[1:])
    callout = Callout("saw cut", dict(values), round_point((end + bottom) / 2), side, row=row)
    body.features.append(
        Feature("saw cut", "joint", tuple(sizes), (callout,), Operation("saw cut", dict(values)), seat.into.name)
    )


def _points(a: Vector, b: Vector) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    return round_point(a), round_point(b)
