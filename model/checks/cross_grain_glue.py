"""Wide parts glued across each other's grain tear themselves apart."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_most, finding, once_a_kind, said
from model.glue import REACH, long_grain_patches
from model.grain import grain, wide_axis
from model.holding import BRIDGED, moves
from model.movement import moisture_range, width_change
from model.overlap import Patch, contact_patches
from model.piece import Part, Piece
from plans.joints import Biscuit, Dowel, LooseTenon
from plans.problems import Problem

MOST = 1.6  # mm of movement that a glue line bears (common practice: some 3 to 4 in of width)
CROSSED = 0.7  # cosine: grains nearer to each other than 45 degrees move together


def check(piece: Piece) -> list[Problem]:
    """Glued faces whose two sides move in different directions by more than the glue bears."""
    low, high = moisture_range(piece)
    found = []
    for joint in piece.joints:
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        alike = moves(a) and moves(b) and abs(float(grain(a) @ grain(b))) > CROSSED
        if not joint.glued or alike:
            continue
        entry = piece.design.spec.joints[joint.number]
        patches, share = long_grain_patches(a, b), 1.0
        if isinstance(entry, BRIDGED) and not patches:  # they hold end grain as fast as any other, from first to last
            patches = contact_patches(a.mesh, b.mesh, REACH)
            share = _bridged(entry, patches)
        change = share * max(
            (max(_moves(a, b, patch, low, high), _moves(b, a, patch, low, high)) for patch in patches), default=0.0
        )
        if change <= MOST:
            continue
        found.append(
            finding(
                "cross-grain-glue",
                "warning",
                f"{a.name} and {b.name} are glued across the grain over too great a width",
                piece.design.joint_place(joint.number),
                "divide the joint, leave the glue out but for a short stretch, or fix it so that it can slide",
                (a.name, b.name),
                f"{said(piece, change)} of movement from {low:.0f} to {high:.0f} % moisture",
                f"at most {at_most(piece, MOST)}",
            )
        )
    return once_a_kind(piece, found)


def _moves(part: Part, other: Part, patch: Patch, low: float, high: float) -> float:
    """How much the glued stretch of a part changes across its grain, where the other holds it still (mm)."""
    if not moves(part):
        return 0.0
    # sheet goods and stone hold still every way; wood only along its grain
    still = grain(other) if moves(other) else wide_axis(part)
    across = still - grain(part) * float(still @ grain(part))
    length = float(np.linalg.norm(across))
    reach = float(np.ptp(patch.outline @ (across / length))) if length > 0 else 0.0
    return width_change(part, reach, low, high)


def _bridged(entry: Dowel | LooseTenon | Biscuit, patches: list[Patch]) -> float:
    """From the first to the last of a row, as a share of the face it stands along."""
    if entry.per_place < 2 or not patches:
        return 0.0
    if entry.from_ends is None:
        return 1.0 - 1.0 / entry.per_place
    long = float(np.linalg.norm(np.ptp(patches[0].outline, axis=0)))
    return max(0.0, 1.0 - 2.0 * entry.from_ends / long)
