"""The angles at which a saw or a bevel gauge is set for a flat that is not square.

With the part lying on its face, `n` the outward normal of the cut in the part's own directions
(along the grain, across its width, through its thickness):
the mitre gauge is set off square by atan(n_width / n_along), and the blade tilts by asin(n_thickness).
Plain vector algebra; the same relations stand in any joinery handbook's compound mitre table.
"""

from __future__ import annotations

import math

from model.frames import Vector, axis_vector, nearest_side, side_vector
from plans.sides import SIDE_AXIS, Axis, Side, side_of, third_axis

SQUARE = 0.02  # degrees: less than this is a square cut


def slope_values(normal: Vector, side: Side, runs: Axis, thick: Axis) -> dict[str, float | str | int | None]:
    """Angles (degrees, unsigned) of a cut on `side`, and the sides it falls away towards; empty where it is square.

    An end gives `mitre` (seen on the face), `slope` (seen on the edge) and `tilt` (the saw blade);
    a long edge gives `slope`.
    """
    wide = third_axis(runs, thick)
    along = SIDE_AXIS[side]
    n_main = abs(float(normal @ axis_vector(along)))
    n_wide = float(normal @ axis_vector(wide))
    n_thick = float(normal @ axis_vector(thick))
    if along == runs:
        mitre = math.degrees(math.atan2(n_wide, n_main))
        slope = math.degrees(math.atan2(n_thick, n_main))
        tilt = math.degrees(math.asin(n_thick))
        if max(abs(mitre), abs(tilt)) < SQUARE:
            return {}
        return {
            "mitre": abs(mitre),
            "mitre towards": side_of(wide, n_wide),
            "slope": abs(slope),
            "slope towards": side_of(thick, n_thick),
            "tilt": abs(tilt),
        }
    across = thick if along == wide else wide
    slope = math.degrees(math.atan2(float(normal @ axis_vector(across)), n_main))
    return {} if abs(slope) < SQUARE else {"slope": abs(slope), "slope towards": side_of(across, slope)}


BORED_SQUARE = 0.25  # degrees: nobody bores nearer than that by eye


def bored_values(inward: Vector, side: Side) -> dict[str, float | str | int | None]:
    """How far a hole that goes `inward` leans from square to its `side` (degrees), and where to; empty where square.

    `inward` is a unit vector in the part's own directions.
    """
    out = side_vector(side)
    aside = inward - out * float(inward @ out)
    lean = math.degrees(math.atan2(float((aside @ aside) ** 0.5), -float(inward @ out)))
    return {} if lean < BORED_SQUARE else {"off square": lean, "towards": nearest_side(aside)}
