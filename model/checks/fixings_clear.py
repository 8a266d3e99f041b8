"""No fixing may stand where a part or another fixing stands: a screw across a screw, a bolt through a neighbour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from model.meshes import Mesh, mesh_of
from model.overlap import candidate_pairs, common_volume, overlap_volume
from model.piece import FixingMade, Piece
from plans.problems import Problem

if TYPE_CHECKING:
    import cadquery as cq

ALLOWED = 0.5  # mm3, as between parts


def check(piece: Piece) -> list[Problem]:
    """The first clash of every fixing, with a part or with a fixing; the fast test first, then the exact one."""
    parts = list(piece.parts.values())
    driven = [(fixing, solid, mesh_of(solid)) for fixing in piece.fixings for solid in fixing.solids()]
    meshes = [part.mesh for part in parts] + [mesh for _, _, mesh in driven]
    found: dict[int, Problem] = {}
    for i, j in candidate_pairs(meshes, 0.0):
        if j < len(parts):
            continue
        fixing, solid, mesh = driven[j - len(parts)]
        if fixing.number in found:
            continue
        if i < len(parts) and not fixing.bored and parts[i].name in (fixing.through, fixing.into):
            continue
        if i < len(parts):
            name = parts[i].name
            other: cq.Shape = parts[i].sharp.moved(parts[i].at)
        else:
            other, name = driven[i - len(parts)][1], f"another {driven[i - len(parts)][0].kind}"
        volume = _shared(meshes[i], mesh, other, solid)
        if volume > ALLOWED:
            found[fixing.number] = _problem(piece, fixing, name, volume)
    return [found[number] for number in sorted(found)]


def _shared(a: Mesh, b: Mesh, first: cq.Shape, second: cq.Shape) -> float:
    return common_volume(first, second) if overlap_volume(a, b) > ALLOWED else 0.0


def _problem(piece: Piece, fixing: FixingMade, name: str, volume: float) -> Problem:
    return Problem(
        "fixing-in-the-way",
        "error",
        f"the {fixing.kind} that holds {fixing.through} is in the same place as {name}",
        piece.design.fixing_place(fixing.number),
        "move one of them, or take a shorter or a smaller one",
        tuple(dict.fromkeys((fixing.through, fixing.into))),
        f"{volume:.0f} mm3 shared",
        "nothing shared",
    )
