"""Fixings by the name one asks for at the counter, in the set's own unit system."""

from __future__ import annotations

import math
from fractions import Fraction

from model.piece import Value
from plans.library import screw
from plans.units import millimetres
from publish.edition import Edition


def screw_name(edition: Edition, values: dict[str, Value]) -> str:
    """`No. 8 × 1 3/4 in wood screw`, or its metric counterpart `4 × 45 mm wood screw`."""
    gauge, long = values["gauge"], values["long"]
    assert isinstance(gauge, int) and isinstance(long, float)
    if edition.units.name == "inch":
        return f"No. {gauge} × {edition.measure(long)} wood screw"
    known = screw(gauge)
    assert known is not None
    # sold in steps of 5 mm; never more than 1 mm longer than the screw the holes were bored for
    sold = math.floor((long + 1.0) / 5.0) * 5
    return f"{millimetres(known.metric_diameter, Fraction(1, 2))} × {sold} mm wood screw"
