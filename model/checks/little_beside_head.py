"""The hole that takes the head of a screw has wood all round it, or the drill breaks out of the side."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, once_a_kind, said
from model.fixings.wood_screw import bores
from model.frames import Vector, axis_vector
from model.meshes import Floats
from model.piece import Piece
from model.rays import hits
from model.screws import Driven, around, driven
from plans.problems import Problem

LEAST = 1.5  # mm, 1/16 in of wood beside the hole (common practice)
CLEAR = 0.1  # mm off the wall of the hole, which is drawn in facets
DEEPEST = 0.95  # of the hole
PLACES = 5  # down the hole
LEVEL = 1e-6  # mm


def check(piece: Piece) -> list[Problem]:
    """Heads that are let in where too little of the upper part is left to a side, or the hole comes out of it."""
    found = []
    for screw in driven(piece):
        left = _beside(piece, screw)
        if left >= LEAST - 0.05:
            continue
        out = left <= 0
        through = screw.fixing.through
        found.append(
            finding(
                "little-beside-head",
                "warning",
                f"the hole for the head of a screw breaks out of the side of {through}"
                if out
                else f"little of {through} is left beside the hole for the head of its screw",
                piece.design.fixing_place(screw.fixing.number, "plugged" if screw.entry.plugged else "sunk"),
                "sink the head less deep, use a thinner screw, or bring it squarer to the face it goes in by",
                (through, screw.fixing.into),
                "nothing" if out else said(piece, left),
                f"at least {at_least(piece, LEAST)}",
            )
        )
    return once_a_kind(piece, found)


def _beside(piece: Piece, screw: Driven) -> float:
    """Least wood beside the hole (mm), below the slanting edge of its mouth; 0 where it comes out."""
    deep = screw.entry.plugged or screw.entry.sunk or 0.0
    if not deep:
        return float("inf")
    radius = bores(screw.entry).plug / 2
    ways = _ways(screw)
    depths = np.linspace(min(radius, 0.5 * deep), DEEPEST * deep, PLACES) - deep
    corners = piece.parts[screw.fixing.through].mesh.corners
    # the ways lie square to the screw, so what lies wholly above or below a depth is never met
    heights = (corners - screw.seat) @ screw.direction
    least, most = heights.min(axis=1), heights.max(axis=1)
    left = float("inf")
    for depth in depths:
        at = corners[(least <= depth + LEVEL) & (most >= depth - LEVEL)]
        starts = screw.seat + screw.direction * depth + ways * (radius + CLEAR)
        left = min(left, *(CLEAR + float(met[0]) if len(met) % 2 else 0.0 for met in hits(at, starts, ways)))
    return left


def _ways(screw: Driven) -> Floats:
    """The ways square to the screw in which wood is looked for: of a slot, those across it."""
    if screw.entry.slotted is None:
        return around(screw.direction, 16)
    across: Vector = np.cross(screw.direction, axis_vector(screw.entry.slotted))
    across = across / np.linalg.norm(across)
    return np.array([across, -across])
