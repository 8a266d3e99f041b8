"""A wide part held still at two places across its grain splits."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_most, finding, once_a_kind, said
from model.grain import grain, wide_axis
from model.holding import moves
from model.movement import moisture_range, width_change
from model.piece import FixingMade, Part, Piece
from plans.fixings import MachineBolt, Nail, WoodScrew
from plans.problems import Problem

MOST = 1.6  # mm a screw in a clear hole gives way by bending (common practice: two screws up to some 4 in apart)
FAST = WoodScrew | MachineBolt | Nail
ALONGSIDE = 0.9  # cosine: parts whose grain runs alike move alike


def check(piece: Piece) -> list[Problem]:
    """Parts whose screws are so far apart across the grain that the wood moves more between them than they give."""
    low, high = moisture_range(piece)
    found = []
    for part in piece.parts.values():
        fixings = [f for f in piece.fixings if part.name in (f.through, f.into) and _against(piece, part, f)]
        fixings = fixings if moves(part) else []
        if not fixings:
            continue
        points = np.array([point for fixing in fixings for point in fixing.points])
        spread = float(np.ptp(points @ wide_axis(part)))
        change = width_change(part, spread, low, high)
        if change <= MOST:
            continue
        others = [f.into if f.through == part.name else f.through for f in fixings]
        found.append(
            finding(
                "cross-grain-screws",
                "warning",
                f"{part.name} is screwed fast at places {said(piece, spread)} apart across its grain",
                piece.design.fixing_place(fixings[0].number),
                "hold it fast at one place and let it slide at the others: slotted holes, buttons or clips",
                (part.name, *others),
                f"{said(piece, change)} of movement from {low:.0f} to {high:.0f} % moisture",
                f"at most {at_most(piece, MOST)}",
            )
        )
    return once_a_kind(piece, found)


def _against(piece: Piece, part: Part, fixing: FixingMade) -> bool:
    """Whether a screw, bolt or nail goes through the width of a part, which others hold still; slots let it move."""
    entry = piece.design.spec.fixings[fixing.number]
    if not isinstance(entry, FAST) or (isinstance(entry, WoodScrew) and entry.slotted is not None):
        return False
    if not moves(piece.parts[fixing.into if fixing.through == part.name else fixing.through]):
        return abs(float(np.array(fixing.direction) @ wide_axis(part))) <= 0.7  # sheet goods hold still every way
    if abs(float(np.array(fixing.direction) @ wide_axis(part))) > 0.7:
        return False
    return fixing.through == part.name or abs(float(grain(piece.parts[fixing.through]) @ grain(part))) < ALONGSIDE
