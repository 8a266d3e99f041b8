"""A tenon that is as long as its mortise is deep stands on the bottom, and its shoulders do not close."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind, said
from model.mortises import mortises
from model.piece import Piece
from plans.problems import Problem

LEAST = 0.5  # mm for glue at the bottom (common practice: 1/32 to 1/16 in)


def check(piece: Piece) -> list[Problem]:
    """Mortises without room at the bottom."""
    found = []
    for mortise in mortises(piece):
        room = mortise.deep - mortise.long
        if room < LEAST and not mortise.through:
            a, b = mortise.guest, mortise.host
            found.append(
                finding(
                    "tenon-bottoms",
                    "warning",
                    f"the tenon of {a} stands on the bottom of its mortise in {b}",
                    piece.design.joint_place(mortise.joint.number, "relief"),
                    "give the mortise some `relief`, or say none to take what is usual",
                    (a, b),
                    f"{said(piece, room)} at the bottom",
                    f"at least {said(piece, LEAST)}",
                )
            )
    return once_a_kind(piece, found)
