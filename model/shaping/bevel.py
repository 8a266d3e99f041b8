"""Bevelled long edges."""

from __future__ import annotations

import math

from model import kernel
from model.body import Body
from model.frames import round_point, side_vector
from model.kernel import Plane
from model.piece import Callout, Feature, Operation
from model.shaping.shaped import Shaped
from plans.shaping.bevel import Bevel
from plans.sides import AXIS_NUMBER, OPPOSITE, SIDE_AXIS


def shape(body: Body, bevel: Bevel) -> Shaped | None:
    """One plane along the edge, hinged on the arris away from `towards`; nothing for an angle of 0."""
    if bevel.angle == 0:
        return None
    hinge = body.blank.middle()
    hinge[AXIS_NUMBER[SIDE_AXIS[bevel.edge]]] = body.blank.at(bevel.edge)
    hinge[AXIS_NUMBER[SIDE_AXIS[bevel.towards]]] = body.blank.at(OPPOSITE[bevel.towards])
    normal = side_vector(bevel.edge) + side_vector(bevel.towards) * math.tan(math.radians(bevel.angle))
    normal = normal / (normal @ normal) ** 0.5
    values = {"side": bevel.edge, "slope": bevel.angle, "slope towards": bevel.towards}
    callout = Callout("sloped edge", dict(values), round_point(hinge), body.ends[1])
    feature = Feature("bevel", "shaping", callouts=(callout,), operation=Operation("sloped edge", dict(values)))
    return Shaped("outline", (kernel.beyond(Plane(hinge, normal)),), feature)
