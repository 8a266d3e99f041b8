"""Parts turned round on the lathe."""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, axis_vector, round_point, side_vector
from model.kernel import KernelFault, spell
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.shaped import Shaped
from plans.shaping.turned import Turned
from plans.sides import AXIS_NUMBER

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm the tool stands outside the part

Station = tuple[float, float]  # mm from the end that is measured from, diameter


def shape(body: Body, turned: Turned) -> Shaped:
    """A block round the turned length, less what the lathe leaves."""
    start = turned.start or body.datum_end
    length = body.blank.size(body.runs)
    if turned.diameter is not None:
        stations = [(0.0, turned.diameter), (length, turned.diameter)]
    else:
        stations = [(place.at, place.diameter) for place in turned.diameters]
    _must_be_in_order(stations, length)
    square = min(body.blank.size(body.wide), body.blank.size(body.thick))
    thickest = max(diameter for _, diameter in stations)
    if thickest > square + NEAR:
        raise KernelFault(f"a part {spell(square)} square cannot be turned to {spell(thickest)}")
    origin = body.blank.middle()
    origin[AXIS_NUMBER[body.runs]] = body.blank.at(start)
    tool = _tool(body, origin, -side_vector(start), stations, length)
    values: dict[str, Value] = {
        "diameter": turned.diameter,
        "from": start,
        "thickest": thickest,
        "thinnest": min(diameter for _, diameter in stations),
        "whole": stations[0][0] < NEAR and stations[-1][0] > length - NEAR,
    }
    middle = origin - side_vector(start) * (stations[0][0] + stations[-1][0]) / 2
    callout = Callout("turned", dict(values), round_point(middle), body.datum_side(body.thick))
    sizes = _sizes(body, origin, -side_vector(start), stations)
    feature = Feature("turned", "shaping", sizes, (callout,), Operation("turned", dict(values)))
    return Shaped("outline", (tool,), feature)


def _must_be_in_order(stations: list[Station], length: float) -> None:
    if any(b < a - NEAR for (a, _), (b, _) in pairwise(stations)) or stations[-1][0] - stations[0][0] < NEAR:
        raise KernelFault("the diameters must follow each other along the part")
    if stations[0][0] < -NEAR or stations[-1][0] > length + NEAR:
        raise KernelFault("the diameters run past the end of the part")


def _tool(body: Body, origin: Vector, ahead: Vector, stations: list[Station], length: float) -> cq.Solid:
    """All of the blank between the first and the last station that lies outside the turned shape."""
    (first, first_wide), (last, last_wide) = stations[0], stations[-1]
    whole = [*stations]
    # past an end of the part the tool stands clear of it
    if first < NEAR:
        whole, first = [(-CLEAR, first_wide), *whole], -CLEAR
    if last > length - NEAR:
        whole, last = [*whole, (length + CLEAR, last_wide)], length + CLEAR
    aside = axis_vector(body.wide)
    outer = float(np.linalg.norm(body.blank.high - body.blank.low))  # farther out than any corner of the blank
    profile = [origin + ahead * at + aside * diameter / 2 for at, diameter in whole]
    profile += [origin + ahead * last + aside * outer, origin + ahead * first + aside * outer]
    ring = [*profile, profile[0]]
    lines = [
        cq.Edge.makeLine(kernel.vector(a), kernel.vector(b)) for a, b in pairwise(ring) if np.linalg.norm(a - b) > NEAR
    ]
    wire = cq.Wire.assembleEdges(lines)
    return cq.Solid.revolve(wire, [], 360.0, kernel.vector(origin), kernel.vector(origin + ahead))


def _sizes(body: Body, origin: Vector, ahead: Vector, stations: list[Station]) -> tuple[Size, ...]:
    """Each diameter where it is, and how far that is from the datum end."""
    seen = body.datum_side(body.thick)
    aside = axis_vector(body.wide)
    number = AXIS_NUMBER[body.runs]
    datum = body.blank.at(body.datum_end)
    sizes = []
    for at, diameter in stations:
        middle = origin + ahead * at
        low, high = middle - aside * diameter / 2, middle + aside * diameter / 2
        sizes.append(Size("diameter", diameter, body.wide, round_point(low), round_point(high), seen, "size"))
        hooked = low.copy()
        hooked[number] = datum
        away = abs(float(low[number] - datum))
        if NEAR < away < body.blank.size(body.runs) - NEAR:
            sizes.append(
                Size("turned position", away, body.runs, round_point(hooked), round_point(low), seen, "position")
            )
    return tuple(sizes)
