"""Where a gap is stated, the solids must have it: no narrower, and no wider."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, once_a_kind, said
from model.frames import matrix_of, side_vector
from model.grain import joined_pairs
from model.overlap import Patch, contact_patches, meeting_boxes
from model.piece import Part, Piece
from plans.problems import Problem
from plans.sides import Side

NOISE = 0.1  # mm
PAST = 3.0  # mm past what is stated within which a neighbour is what the gap is kept from
LEAST = 100.0  # mm2 of faces that look at each other
SQUARE = 0.7  # cosine: a face that looks more that way than any other


def check(piece: Piece) -> list[Problem]:
    """Every stated gap, measured square to the faces on that side of the part, against whatever lies there."""
    found = []
    for part in piece.parts.values():
        for side, stated in part.spec.gap.items():
            if stated > NOISE and side in part.spec.cut_to:
                found += _judged(piece, part, side, stated)
    return once_a_kind(piece, found)


def _judged(piece: Piece, part: Part, side: Side, stated: float) -> list[Problem]:
    there = _nearest(piece, part, side, stated + PAST)
    if there is None:
        return []
    other, patch = there
    if abs(patch.gap - stated) <= NOISE:
        return []
    much = "narrower" if patch.gap < stated else "wider"
    return [
        finding(
            "gap-not-kept",
            "error",
            f"the gap between {part.name} and {other} is {much} than stated",
            piece.design.place("parts", part.kind, "gap"),
            f"move or cut {other}, or state the gap that is there",
            (part.name, other),
            said(piece, max(patch.gap, 0.0)),
            said(piece, stated),
        )
    ]


def _nearest(piece: Piece, part: Part, side: Side, reach: float) -> tuple[str, Patch] | None:
    """What lies nearest on a side, of the parts that are not fast to this one."""
    out = matrix_of(part.at)[:3, :3] @ side_vector(side)
    fast = joined_pairs(piece)
    found: list[tuple[float, str, Patch]] = []
    for name, other in piece.parts.items():
        fixed = name == part.name or frozenset((name, part.name)) in fast
        if fixed or not meeting_boxes(np.array([part.mesh.box, other.mesh.box]), 2 * reach):
            continue
        for patch in contact_patches(part.mesh, other.mesh, reach):
            if patch.area >= LEAST and patch.gap > -NOISE and float(patch.normal @ out) > SQUARE:
                found.append((patch.gap, name, patch))
    if not found:
        return None
    _, name, patch = min(found, key=lambda one: one[:2])
    return name, patch
