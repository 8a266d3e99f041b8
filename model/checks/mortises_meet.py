"""Two mortises that meet inside a part leave their tenons no wall, and the corner no strength."""

from __future__ import annotations

from itertools import combinations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.mortises import Mortise, mortises
from model.piece import Piece
from plans.problems import Problem

LEAST = 1.5  # mm of wood between two mortises (common practice: 1/16 in)


def check(piece: Piece) -> list[Problem]:
    """Pairs of mortises in one part with no wall between them; tenons that clash are told as `same-place`."""
    found = []
    for a, b in combinations(mortises(piece), 2):
        if a.host != b.host or a.joint is b.joint:
            continue
        gap = float(a.block().min_gap(b.block(), 2 * LEAST))
        clash = {(a.guest, b.guest), (b.guest, a.guest)} & piece.clashes.keys()
        if gap >= LEAST or clash:
            continue
        found.append(_problem(piece, a, b, gap))
    return once_a_kind(piece, found)


def _problem(piece: Piece, a: Mortise, b: Mortise, gap: float) -> Problem:
    return finding(
        "mortises-meet",
        "warning",
        f"the mortises for {a.guest} and {b.guest} meet inside {a.host}",
        piece.design.joint_place(b.joint.number, "long"),
        "make the tenons shorter, or set one of them further in",
        (a.host, a.guest, b.guest),
        f"{said(piece, gap)} of wood between them",
        f"at least {at_least(piece, LEAST)}",
    )
