"""How far a solid reaches along a direction of the piece, as a whole or at a height."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from model import kernel
from model.body import extents_of
from plans.sides import AXIS_NUMBER, Axis

if TYPE_CHECKING:
    import cadquery as cq


def reach(solid: cq.Shape, axis: Axis, level: float | None) -> tuple[float, float]:
    """From where to where a solid in the piece reaches (mm); across, at a `level` where it has any wood there."""
    points = kernel.vertices(solid)
    if axis != "up-down" and level is not None:
        section = kernel.level_points(solid, level)
        points = section if len(section) else points
    elif any(edge.geomType() != "LINE" for edge in solid.Edges()):
        whole = extents_of(solid)
        points = np.array([whole.low, whole.high])
    column = points[:, AXIS_NUMBER[axis]]
    return float(column.min()), float(column.max())
