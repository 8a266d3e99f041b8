"""A shoulder hides the mouth of the mortise and keeps the joint square: it needs width."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.piece import Piece
from plans.joints import BreadboardEnd, MortiseAndTenon
from plans.problems import Problem

LEAST = 3.0  # mm, 1/8 in (common practice); none at all is a joint of its own, a bare-faced tenon
NONE = 0.01


def check(piece: Piece) -> list[Problem]:
    """Tenons with a shoulder that is there, and too narrow to be of use."""
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, MortiseAndTenon | BreadboardEnd):
            continue
        twin = entry.twin if isinstance(entry, MortiseAndTenon) else None
        whole = entry.thick if twin is None else 2 * entry.thick + twin
        shoulders = [("thick", (piece.parts[joint.a].over_all[2] - whole) / 2)]
        if isinstance(entry, MortiseAndTenon):
            shoulders += [("shoulders", width) for width in entry.shoulders.values()]
        for field, width in shoulders:
            if NONE < width < LEAST:
                found.append(
                    finding(
                        "narrow-shoulder",
                        "warning",
                        f"a shoulder of {joint.a} at {joint.b} is too narrow to bear",
                        piece.design.joint_place(joint.number, field),
                        "make the tenon smaller there, or leave the shoulder out",
                        (joint.a, joint.b),
                        said(piece, width),
                        f"at least {at_least(piece, LEAST)}, or none",
                    )
                )
    return once_a_kind(piece, found)
