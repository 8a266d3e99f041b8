"""Where work along a part stays short of an end."""

from __future__ import annotations

from collections.abc import Mapping

from model.body import Body
from model.frames import Vector
from model.kernel import KernelFault
from model.piece import Value
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Side


def stop_at(body: Body, low: Vector, high: Vector, stop: Mapping[Side, float]) -> None:
    """Draw the ends of a box (standing frame, mm, changed in place) in by what `stop` says for each end."""
    for side, short in stop.items():
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        (high if SIDE_SIGN[side] > 0 else low)[number] = body.blank.at(side) - SIDE_SIGN[side] * short
        if high[number] <= low[number]:
            raise KernelFault("the stops leave nothing between them")


def stop_values(stop: Mapping[Side, float]) -> dict[str, Value]:
    """The stops as values of a callout: `stop 1 from` names the end, `stop 1` is how far short of it (mm)."""
    values: dict[str, Value] = {}
    for number, (side, short) in enumerate(stop.items(), start=1):
        values[f"stop {number}"] = short
        values[f"stop {number} from"] = side
    return values
