"""The overall sizes every drawing starts from: length, width and thickness, and the length between shoulders."""

from __future__ import annotations

import numpy as np

from model.body import Body
from model.frames import Vector, round_point
from model.kernel import vertices
from model.piece import Feature, Size
from plans.sides import AXIS_NUMBER, Axis, Side

# what stands out past the shoulder of an end
GROWN = ("tenon", "tongue", "housed tongue", "edge tongue", "housed end", "dovetail tongue")


def overall(body: Body) -> Feature:
    """Sizes over all, each between two real corners of the finished part."""
    corners = vertices(body.sharp)
    face, edge = body.datum_side(body.thick), body.datum_side(body.wide)
    sizes = [
        _over("overall length", body, corners, body.runs, face),
        _over("overall width", body, corners, body.wide, face),
        _over("overall thickness", body, corners, body.thick, edge),
        *_between_shoulders(body, face),
    ]
    return Feature("overall", "cut", tuple(sizes))


def _over(name: str, body: Body, corners: Vector, axis: Axis, face: Side) -> Size:
    number = AXIS_NUMBER[axis]
    low = corners[int(np.argmin(corners[:, number]))]
    high = corners[int(np.argmax(corners[:, number]))]
    return Size(name, float(high[number] - low[number]), axis, round_point(low), round_point(high), face, "overall")


def _between_shoulders(body: Body, face: Side) -> list[Size]:
    """From the foot of one tenon or tongue to that of the other, where both were measured; a reference size."""
    ends = {
        str(callout.values["end"]): size
        for feature in body.features
        if feature.kind in GROWN
        for callout in feature.callouts
        for size in feature.sizes
        if size.name == f"{feature.kind} length"
    }
    if set(ends) != set(body.ends):
        return []
    first, second = (ends[end].start for end in body.ends)
    number = AXIS_NUMBER[body.runs]
    value = abs(second[number] - first[number])
    return [Size("between shoulders", value, body.runs, first, second, face, "reference")]
