"""Faces that all but touch: a gap no joint explains is a slip in a number."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.grain import joined_pairs
from model.holding import meant
from model.overlap import candidate_pairs, contact_patches
from model.piece import Piece
from plans.fixings import ButtHinge, DrawerSlide, Magnet, ShelfPin
from plans.problems import Problem

TOUCH = 0.05  # mm
REACH = 1.0  # mm: a gap one means to have is wider (common practice: 1/16 in)
LEAST = 100.0  # mm2


def check(piece: Piece) -> list[Problem]:
    """Pairs without a joint whose flat faces stand off by less than a saw cut."""
    parts = list(piece.parts.values())
    joined = {*joined_pairs(piece), *_apart_by_design(piece)}
    found = []
    for i, j in candidate_pairs([part.mesh for part in parts], 2 * REACH):
        a, b = parts[i], parts[j]
        if frozenset((a.name, b.name)) in joined:
            continue
        patches = [patch for patch in contact_patches(a.mesh, b.mesh, REACH) if patch.area >= LEAST]
        if not patches or abs(patches[0].gap) <= TOUCH or patches[0].gap < 0 or meant(a, b, patches[0].gap):
            continue
        found.append(
            finding(
                "nearly-touching",
                "warning",
                f"{a.name} and {b.name} all but touch",
                piece.design.place("parts", b.kind, "where"),
                "let them touch, or leave a gap that can be seen",
                (a.name, b.name),
                f"{said(piece, patches[0].gap)} apart",
                f"touching, or more than {at_least(piece, REACH)} apart",
            )
        )
    return once_a_kind(piece, found)


def _apart_by_design(piece: Piece) -> set[frozenset[str]]:
    """Pairs that move past each other: lids, doors, drawers, loose shelves."""
    kinds = ButtHinge | DrawerSlide | Magnet | ShelfPin
    return {
        frozenset((fixing.through, fixing.into))
        for fixing in piece.fixings
        if isinstance(piece.design.spec.fixings[fixing.number], kinds)
    }
