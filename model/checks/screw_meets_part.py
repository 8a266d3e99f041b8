"""A screw may run into no part but the two it holds."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind
from model.piece import Piece
from model.screws import driven
from plans.problems import Problem

ALLOWED = 1.0  # mm3


def check(piece: Piece) -> list[Problem]:
    """Screws whose shank or head lies in a third part."""
    found = []
    for screw in driven(piece):
        fixing = screw.fixing
        body = screw.body()
        box = body.bounding_box()
        for part in piece.parts.values():
            low, high = part.mesh.box
            apart = any(box[k] > high[k] or box[k + 3] < low[k] for k in range(3))
            if apart or part.name in (fixing.through, fixing.into):
                continue
            volume = float((body ^ part.mesh.manifold).volume())
            if volume > ALLOWED:
                found.append(
                    finding(
                        "screw-meets-part",
                        "error",
                        f"a screw through {fixing.through} into {fixing.into} runs into {part.name}",
                        piece.design.fixing_place(fixing.number),
                        "change how many screws stand in a place, or their length, or move what is in the way",
                        (fixing.through, fixing.into, part.name),
                        f"{volume:.0f} mm3 of the screw in {part.name}",
                        "nothing in the way of the screw",
                    )
                )
    return once_a_kind(piece, found)
