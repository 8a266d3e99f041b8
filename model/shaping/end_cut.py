"""Ends cut at an angle."""

from __future__ import annotations

import math

from model import kernel
from model.body import Body
from model.frames import round_point, side_vector
from model.kernel import Plane
from model.piece import Callout, Feature, Operation
from model.shaping.shaped import Shaped
from model.slopes import slope_values
from plans.shaping.end_cut import EndCut
from plans.sides import AXIS_NUMBER, OPPOSITE, SIDE_AXIS


def shape(body: Body, cut: EndCut) -> Shaped | None:
    """One plane through the long point, falling away towards each named side; nothing where all slopes are 0."""
    if not any(cut.slopes.values()):
        return None
    long_point = body.blank.middle()
    long_point[AXIS_NUMBER[body.runs]] = body.blank.at(cut.end)
    normal = side_vector(cut.end)
    for side, angle in cut.slopes.items():
        long_point[AXIS_NUMBER[SIDE_AXIS[side]]] = body.blank.at(OPPOSITE[side])
        normal = normal + side_vector(side) * math.tan(math.radians(angle))
    normal = normal / (normal @ normal) ** 0.5
    values = {"side": cut.end, **slope_values(normal, cut.end, body.runs, body.thick)}
    seen = body.datum_side(body.thick if SIDE_AXIS[next(iter(cut.slopes))] == body.wide else body.wide)
    callout = Callout("sloped end", dict(values), round_point(long_point), seen)
    feature = Feature("end cut", "shaping", callouts=(callout,), operation=Operation("sloped end", dict(values)))
    return Shaped("outline", (kernel.beyond(Plane(long_point, normal)),), feature)
