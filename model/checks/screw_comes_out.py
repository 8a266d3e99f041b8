"""A screw must end inside the lower part."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, once_a_kind, said
from model.piece import Piece
from model.rays import hits
from model.screws import Driven, around, driven
from plans.problems import Problem

LEAST = 2.0  # mm of wood over the point (common practice: 1/8 in at the drill)
BESIDE = 1.6  # diameters from the axis, clear of the hole, at which the wood is measured


def check(piece: Piece) -> list[Problem]:
    """Screws whose point comes through the far side, or all but does."""
    found = []
    for screw in driven(piece):
        left = room(piece, screw) - screw.bite
        if left >= LEAST:
            continue
        out = left < 0
        into = screw.fixing.into
        found.append(
            finding(
                "screw-comes-out",
                "error" if out else "warning",
                f"the screw through {screw.fixing.through} {'comes out of' if out else 'all but comes out of'} {into}",
                piece.design.fixing_place(screw.fixing.number, "long"),
                "use a shorter screw, or sink the head less",
                (screw.fixing.through, into),
                f"{said(piece, screw.bite)} of screw in {said(piece, screw.bite + left)} of wood",
                f"at least {said(piece, LEAST)} of wood over the point",
            )
        )
    return once_a_kind(piece, found)


def room(piece: Piece, screw: Driven) -> float:
    """Wood of the lower part along the screw (mm): the middle one of several lines beside its hole."""
    corners = piece.parts[screw.fixing.into].mesh.corners
    ways = around(screw.direction, 8)
    starts = screw.mouth + ways * screw.diameter * BESIDE + screw.direction * 0.02
    distances = [float(met[0]) for met in hits(corners, starts, np.tile(screw.direction, (8, 1))) if len(met) % 2]
    return float(np.median(distances)) if distances else 0.0
