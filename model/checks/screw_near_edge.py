"""A screw near an edge or an end splits the wood."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, once_a_kind, said
from model.grain import grain
from model.piece import Part, Piece
from model.rays import hits
from model.screws import Driven, around, driven
from plans.problems import Problem

EDGE = 1.5  # diameters from the axis to an edge, holes bored (common practice)
END = 4.0  # diameters to an end (common practice)
ALONG = 0.87  # cosine: within 30 degrees of the grain it is an end
HOLE = 0.9  # diameters: clear of its own hole
WAYS = 24
NEAR = 1e-6  # mm


def check(piece: Piece) -> list[Problem]:
    """Screws too near an edge or an end, in either of the two parts."""
    found = []
    for screw in driven(piece):
        for name, point in (
            (screw.fixing.through, screw.seat + screw.direction * screw.clamped * 0.6),
            (screw.fixing.into, screw.mouth + screw.direction * screw.bite * 0.5),
        ):
            edge, end = distances(piece.parts[name], screw, point)
            for what, distance, wanted in (("edge", edge, EDGE), ("end", end, END)):
                if distance < wanted * screw.diameter - 0.05:
                    found.append(_problem(piece, screw, name, what, distance, wanted * screw.diameter))
    return once_a_kind(piece, found)


def distances(part: Part, screw: Driven, point: np.ndarray) -> tuple[float, float]:
    """From the axis of a screw to the nearest edge and the nearest end of a part (mm), at a point of the screw."""
    ways = around(screw.direction, WAYS)
    clear = screw.diameter * HOLE
    # the ways out lie in one plane: only what reaches through it can be met
    heights = (part.mesh.vertices - point) @ screw.direction
    heights = heights[part.mesh.triangles]
    across = (heights.min(axis=1) < NEAR) & (heights.max(axis=1) > -NEAR)
    met = hits(part.mesh.corners[across], point + ways * clear, ways)
    edge = end = np.inf
    for way, found in zip(ways, met, strict=True):
        if len(found) % 2:
            distance = clear + float(found[0])
        elif screw.entry.slotted is not None and len(found) > 1:
            distance = clear + float(found[1])  # it starts in the slot: on to where the wood behind it ends
        else:
            distance = clear
        if abs(float(way @ grain(part))) > ALONG:
            end = min(end, distance)
        else:
            edge = min(edge, distance)
    return float(edge), float(end)


def _problem(piece: Piece, screw: Driven, name: str, what: str, distance: float, wanted: float) -> Problem:
    other = screw.fixing.into if name == screw.fixing.through else screw.fixing.through
    return finding(
        "screw-near-edge",
        "warning",
        f"a screw between {screw.fixing.through} and {screw.fixing.into} is too near an {what} of {name}",
        piece.design.fixing_place(screw.fixing.number),
        "use a thinner screw, fewer in one place, or make the part wider there",
        (name, other),
        f"{said(piece, distance)} from the {what}",
        f"at least {at_least(piece, wanted)}",
    )
