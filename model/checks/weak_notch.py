"""A notch, halving, housing or groove must leave enough of the part to carry."""

from __future__ import annotations

from model.checks.finding import at_least, cut_place, finding, once_a_kind, said
from model.piece import Feature, Part, Piece
from plans.problems import Problem
from plans.sides import SIDE_AXIS, SIDES

SHARE = 0.3  # of the depth of the part: what must be left (common practice: a third to a half)
CUTS = ("notch", "halving", "housing", "dovetail housing", "groove", "rabbet")


def check(piece: Piece) -> list[Problem]:
    """Parts cut nearly through."""
    found = []
    for part in piece.parts.values():
        for feature in part.features:
            if feature.kind not in CUTS or not feature.callouts:
                continue
            whole, left = _left(part, feature)
            if left >= SHARE * whole:
                continue
            found.append(
                finding(
                    "weak-notch",
                    "warning",
                    f"the {feature.kind} in {part.name} leaves little of it",
                    cut_place(piece, part, feature),
                    "make the cut shallower, or the part deeper",
                    (part.name,) if feature.other is None else (part.name, feature.other),
                    f"{said(piece, left)} left of {said(piece, whole)}",
                    f"at least {at_least(piece, SHARE * whole)}",
                )
            )
    return once_a_kind(piece, found)


def _left(part: Part, feature: Feature) -> tuple[float, float]:
    """Depth of the part where it is cut, and what is left of it (mm)."""
    values = feature.callouts[0].values
    deep, side = values.get("deep"), values.get("side")
    if not isinstance(deep, int | float) or side not in SIDES:
        return 1.0, 1.0
    low, high = part.thickness if SIDE_AXIS[side] == part.spec.thick else part.width
    return high - low, high - low - float(deep)
