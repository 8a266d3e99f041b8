"""A face that stands proud of its neighbour's, or shy of it, by less than one would mean."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, once_a_kind, said
from model.faces import outer_faces
from model.grain import linked_pairs
from model.holding import meant
from model.meshes import Floats
from model.piece import Part, Piece
from plans.problems import Problem

FLUSH = 0.1  # mm: what a shaving takes away
MEANT = 1.0  # mm: a step one means to have is larger (common practice: 1/16 in)
PARALLEL = 1e-6  # 1 - cos
NEAR = 3.0  # mm the faces may lie from each other in their own plane


def check(piece: Piece) -> list[Problem]:
    """Parts that hold on to each other and have outer faces all but in one plane."""
    found = []
    for pair in sorted(linked_pairs(piece), key=sorted):
        if len(pair) != 2:
            continue
        a, b = (piece.parts[name] for name in sorted(pair))
        step = _step(a, b)
        if step > 0 and not meant(a, b, step):
            found.append(
                finding(
                    "nearly-flush",
                    "warning",
                    f"{a.name} and {b.name} are not quite flush",
                    piece.design.place("parts", b.kind, "where"),
                    "make them flush, or let one stand back so far that it is seen to be meant",
                    (a.name, b.name),
                    f"a step of {said(piece, step)}",
                    f"flush, or a step of more than {at_least(piece, MEANT)}",
                )
            )
    return once_a_kind(piece, found)


def _step(a: Part, b: Part) -> float:
    """The smallest step between long faces that look the same way side by side (mm); 0 where there is none."""
    least = 0.0
    for one in outer_faces(a):
        for other in outer_faces(b):
            step = abs(one.offset - other.offset)
            alike = float(one.normal @ other.normal) > 1 - PARALLEL and FLUSH < step < MEANT
            if alike and _beside(one.corners, other.corners, one.normal):
                least = step if least == 0.0 else min(least, step)
    return least


def _beside(one: Floats, other: Floats, normal: Floats) -> bool:
    apart = np.maximum(one.min(axis=0) - other.max(axis=0), other.min(axis=0) - one.max(axis=0))
    return bool(np.delete(apart, int(np.argmax(np.abs(normal)))).max() <= NEAR)
