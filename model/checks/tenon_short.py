"""A tenon needs length to hold."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.mortises import Mortise, mortises
from model.piece import Piece
from model.rays import wood_ahead
from plans.joints import LooseTenon
from plans.problems import Problem

SHARE = 1 / 3  # of the wood it goes into at least (common practice: half to two thirds)
ENOUGH = 25.0  # mm: long enough in any stock
LEAST = 8.0  # mm: shorter only locates (common practice: 3/8 in)
LOOSE = 2.0  # times its thickness that a loose tenon goes into either part at least (common practice)


def check(piece: Piece) -> list[Problem]:
    """Tenons that go in less deep than the part has room for."""
    found = []
    for mortise in mortises(piece):
        if mortise.through:
            continue
        room = _room(piece, mortise)
        due = LOOSE * mortise.entry.thick if isinstance(mortise.entry, LooseTenon) else ENOUGH
        wanted = max(LEAST, min(due, SHARE * room))
        if mortise.long >= wanted - 0.1:
            continue
        a, b = mortise.guest, mortise.host
        found.append(
            finding(
                "tenon-short",
                "warning",
                f"the tenon of {a} goes into {b} by little",
                piece.design.joint_place(mortise.joint.number, "long"),
                "make the tenon longer",
                (a, b),
                f"{said(piece, mortise.long)} long, in {said(piece, room)} of wood",
                f"at least {at_least(piece, wanted)}",
            )
        )
    return once_a_kind(piece, found)


def _room(piece: Piece, mortise: Mortise) -> float:
    """Wood of the part from the face the tenon enters to the far side, square to that face (mm)."""
    body = piece.parts[mortise.host]
    bottom = mortise.corners()[4:].mean(axis=0) + mortise.inward * 0.02
    behind = float(wood_ahead(body.mesh.corners, bottom[None], mortise.inward[None])[0])
    return mortise.deep + behind * abs(float(mortise.inward @ mortise.normal))
