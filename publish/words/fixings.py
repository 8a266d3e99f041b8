"""Fixings by the name one asks for at the counter, in the set's own unit system."""

from __future__ import annotations

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
    # metric wood screws are sold in steps of 5 mm: the next shorter never comes out on the far side
    return f"{millimetres(known.metric_diameter, Fraction(1, 2))} × {int((long + 0.3) // 5 * 5)} mm wood screw"
