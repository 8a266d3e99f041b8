"""Short grain between a mortise, notch, halving or housing and the end of the part: it splits off along the grain."""

from __future__ import annotations

from model.checks.finding import at_least, cut_place, finding, once_a_kind, said
from model.holding import moves
from model.piece import Feature, Part, Piece
from plans.problems import Problem

LEAST = 9.5  # mm, 3/8 in (common practice)
AT_THE_END = 0.5  # mm: the cut is open at the end, as in a corner halving
ALONG = 0.5  # of the length of the part
CUTS = ("mortise", "notch", "halving", "housing", "dovetail housing", "groove", "end groove")


def check(piece: Piece) -> list[Problem]:
    """Cuts that leave less wood along the grain, up to the end, than holds."""
    found = []
    for part in piece.parts.values():
        if not moves(part):
            continue  # sheet goods and stone have no short grain
        for feature in part.features:
            left = None if feature.kind not in CUTS else _left(part, feature)
            if left is None or not AT_THE_END < left < LEAST:
                continue
            other = () if feature.other is None else (feature.other,)
            found.append(
                finding(
                    "short-grain",
                    "warning",
                    f"short grain is left at the end of {part.name}, beside the {feature.kind}"
                    + (f" for {feature.other}" if feature.other else ""),
                    cut_place(piece, part, feature),
                    "move the cut further from the end, give the tenon more shoulder there, or let the part run on",
                    (part.name, *other),
                    f"{said(piece, left)} of wood up to the end",
                    f"at least {at_least(piece, LEAST)}",
                )
            )
    return once_a_kind(piece, found)


def _left(part: Part, feature: Feature) -> float | None:
    """Wood along the grain between the cut and the nearer end (mm); None for a groove that runs along the grain."""
    number = ("left-right", "front-back", "up-down").index(part.spec.runs)
    spans = [s for s in feature.sizes if s.along == part.spec.runs and s.role == "size"]
    if not spans:
        return None
    low = min(min(s.start[number], s.end[number]) for s in spans)
    high = max(max(s.start[number], s.end[number]) for s in spans)
    if feature.kind == "groove" and high - low > ALONG * part.over_all[0]:
        return None  # what it leaves at its end is held on three sides by long grain
    return min(low - part.length[0], part.length[1] - high)
