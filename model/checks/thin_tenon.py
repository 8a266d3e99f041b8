"""A tenon is about a third of the thickness of its part; much less breaks off."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.piece import Piece
from plans.joints import BreadboardEnd, Bridle, LooseTenon, MortiseAndTenon
from plans.problems import Problem

SHARE = 0.25  # of the thickness of the part (common practice: a third)


def check(piece: Piece) -> list[Problem]:
    """Tenons and tongues thinner than a quarter of their part."""
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, MortiseAndTenon | Bridle | BreadboardEnd | LooseTenon):
            continue
        thickness = piece.parts[joint.a].over_all[2]
        if isinstance(entry, LooseTenon):
            thickness = min(thickness, piece.parts[joint.b].over_all[2])
        twin = isinstance(entry, MortiseAndTenon) and entry.twin is not None
        if entry.thick * (2 if twin else 1) >= SHARE * thickness:
            continue
        found.append(
            finding(
                "thin-tenon",
                "warning",
                f"the tenon of {joint.a} in {joint.b} is thin",
                piece.design.joint_place(joint.number, "thick"),
                f"a third of the thickness is usual: about {said(piece, thickness / 3)}",
                (joint.a, joint.b),
                f"{said(piece, entry.thick)} of {said(piece, thickness)}",
                f"at least {at_least(piece, SHARE * thickness)}",
            )
        )
    return once_a_kind(piece, found)
