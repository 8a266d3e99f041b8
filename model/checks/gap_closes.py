"""A gap between neighbours must outlast the damp season."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, once_a_kind, said
from model.grain import linked_pairs, turned_axis
from model.movement import change, moisture_range
from model.overlap import Patch, candidate_pairs, contact_patches
from model.piece import Part, Piece
from plans.problems import Place, Problem
from plans.sides import AXES, Axis

WIDEST = 8.0  # mm: a wider gap stays open between boards one can buy
LEAST = 100.0  # mm2 of faces that look at each other
HAIR = 0.05  # mm


def check(piece: Piece) -> list[Problem]:
    """Gaps across the grain that close when the wood swells: each side gives half of its growth, or all of it."""
    parts = list(piece.parts.values())
    low, high = moisture_range(piece)
    linked = linked_pairs(piece)
    found = []
    for i, j in candidate_pairs([part.mesh for part in parts], 2 * WIDEST):
        a, b = parts[i], parts[j]
        if frozenset((a.name, b.name)) in linked:
            continue
        for patch in contact_patches(a.mesh, b.mesh, WIDEST):
            if patch.area < LEAST or patch.gap < -HAIR or (patch.gap <= HAIR and a.kind != b.kind):
                continue
            growth = (_growth(a, patch, low, high) + _growth(b, patch, low, high)) / 2
            if growth > max(patch.gap, 0.0) + HAIR:
                found.append(_problem(piece, a, b, patch, growth))
                break
    return once_a_kind(piece, found)


def _growth(part: Part, patch: Patch, low: float, high: float) -> float:
    """How much a part grows square to a face of it (mm)."""
    axis: Axis = max(AXES, key=lambda one: abs(float(turned_axis(part, one) @ patch.normal)))
    size = float(np.ptp(part.mesh.vertices @ patch.normal))
    return change(part, axis, size, low, high) or 0.0


def _problem(piece: Piece, a: Part, b: Part, patch: Patch, growth: float) -> Problem:
    return finding(
        "gap-closes",
        "warning",
        f"{a.name} and {b.name} swell against each other in the damp season",
        _place(piece, a, b),
        "leave a wider gap, use narrower or quarter-sawn boards, or a wood that moves less",
        (a.name, b.name),
        f"a gap of {said(piece, max(0.0, patch.gap))}",
        f"more than {said(piece, growth)}, which is what they swell into it",
    )


def _place(piece: Piece, a: Part, b: Part) -> Place:
    same = a.kind == b.kind and b.spec.repeat is not None
    return piece.design.place("parts", b.kind, "repeat" if same else "where")
