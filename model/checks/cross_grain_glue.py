"""Wide parts glued across each other's grain tear themselves apart."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, once_a_kind, said
from model.glue import long_grain_patches
from model.grain import grain
from model.movement import moisture_range, width_change
from model.overlap import Patch
from model.piece import Part, Piece
from plans.problems import Problem

MOST = 1.6  # mm of movement that a glue line bears (common practice: some 3 to 4 in of width)
CROSSED = 0.7  # cosine: grains nearer to each other than 45 degrees move together


def check(piece: Piece) -> list[Problem]:
    """Glued faces whose two sides move in different directions by more than the glue bears."""
    low, high = moisture_range(piece)
    found = []
    for joint in piece.joints:
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        if not joint.glued or abs(float(grain(a) @ grain(b))) > CROSSED:
            continue
        moves = max(
            (max(_moves(a, b, patch, low, high), _moves(b, a, patch, low, high)) for patch in long_grain_patches(a, b)),
            default=0.0,
        )
        if moves <= MOST:
            continue
        found.append(
            finding(
                "cross-grain-glue",
                "warning",
                f"{a.name} and {b.name} are glued across the grain over too great a width",
                piece.design.joint_place(joint.number),
                "divide the joint, leave the glue out but for a short stretch, or fix it so that it can slide",
                (a.name, b.name),
                f"{said(piece, moves)} of movement from {low:.0f} to {high:.0f} % moisture",
                f"at most {said(piece, MOST)}",
            )
        )
    return once_a_kind(piece, found)


def _moves(part: Part, other: Part, patch: Patch, low: float, high: float) -> float:
    """How much the glued stretch of a part changes across its grain, where the other holds it still (mm)."""
    across = grain(other) - grain(part) * float(grain(other) @ grain(part))
    length = float(np.linalg.norm(across))
    reach = float(np.ptp(patch.outline @ (across / length))) if length > 0 else 0.0
    return width_change(part, reach, low, high)
