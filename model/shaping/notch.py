"""Notches sawn into a side."""

from __future__ import annotations

import numpy as np

from model import kernel
from model.body import Body
from model.frames import side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation
from model.recess import recess_sizes
from model.shaping.shaped import Shaped
from plans.shaping.notch import Notch
from plans.sides import AXIS_NUMBER, SIDE_AXIS

NEAR = 1e-6  # mm
CLEAR = 1.0  # mm the tool stands outside the part


def shape(body: Body, notch: Notch) -> Shaped:
    """A block let in from `side`, right across the part."""
    depth_axis = SIDE_AXIS[notch.side]
    if notch.deep >= body.blank.size(depth_axis):
        raise KernelFault("the notch is as deep as the part")
    if notch.at < 0 or notch.at + notch.long > body.blank.size(body.runs) + NEAR:
        raise KernelFault("the notch runs past the end of the part")
    low, high = body.blank.low - CLEAR, body.blank.high + CLEAR
    inward = -side_vector(notch.start)
    along = AXIS_NUMBER[body.runs]
    near = body.blank.at(notch.start) + inward[along] * notch.at
    far = near + inward[along] * notch.long
    low[along], high[along] = min(near, far), max(near, far)
    depth = AXIS_NUMBER[depth_axis]
    floor = body.blank.at(notch.side) - side_vector(notch.side)[depth] * notch.deep
    (low if side_vector(notch.side)[depth] > 0 else high)[depth] = floor
    tool = kernel.box(low, high)
    sizes = recess_sizes(body, np.maximum(low, body.blank.low), np.minimum(high, body.blank.high), notch.side, "notch")
    values = {"long": notch.long, "deep": notch.deep, "side": notch.side}
    middle = (np.maximum(low, body.blank.low) + np.minimum(high, body.blank.high)) / 2
    seen = body.thick if depth_axis == body.wide else body.wide
    point = (float(middle[0]), float(middle[1]), float(middle[2]))
    callout = Callout("notch", dict(values), point, body.datum_side(seen))
    return Shaped("sunk", (tool,), Feature("notch", "shaping", sizes, (callout,), Operation("notch", dict(values))))
