"""Glue on end grain does not hold.

Dovetails and the like hold by their shape; dowels, loose tenons, splines and keys bring long grain of their own. A
housing or a rabbet bears its load whatever the glue does: that it does not keep from pulling out is told as a note.
"""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind
from model.glue import glue_area, long_grain_area
from model.holding import BRIDGED, INTERLOCKED, moves
from model.piece import Piece
from plans.joints import Housing, Joint, Mitre, Rabbet
from plans.problems import Problem

BEARS = Housing | Rabbet
SHARE = 0.05  # of the glued area: less is a rim, not a joint


def check(piece: Piece) -> list[Problem]:
    """Glued joints without long grain on long grain, and no screw that holds instead."""
    screwed = {frozenset((fixing.through, fixing.into)) for fixing in piece.fixings}
    found = []
    for joint in piece.joints:
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        entry = piece.design.spec.joints[joint.number]
        if not joint.glued or _holds(entry) or not (moves(a) and moves(b)) or frozenset((a.name, b.name)) in screwed:
            continue
        whole, long_grain = glue_area(a, b), long_grain_area(a, b)
        if whole <= 0 or long_grain >= SHARE * whole:
            continue
        found.append(
            finding(
                "end-grain-glue",
                "note" if isinstance(entry, BEARS) else "warning",
                f"the {joint.kind} of {a.name} and {b.name} is glued on end grain only"
                + (": it bears a load, but something else has to keep it from pulling out" * isinstance(entry, BEARS)),
                piece.design.joint_place(joint.number),
                "use a joint that brings long grain together, such as a mortise and tenon, or add screws",
                (a.name, b.name),
                f"{long_grain:.0f} mm2 of long grain in {whole:.0f} mm2 of glue",
                "long grain on long grain",
            )
        )
    return once_a_kind(piece, found)


def _holds(entry: Joint) -> bool:
    if isinstance(entry, Mitre):
        return entry.spline is not None or entry.keys is not None
    return isinstance(entry, INTERLOCKED | BRIDGED)
