"""No fixing may stand where a part or another fixing stands: a bolt through a neighbour, a nail on a screw.

Wood screws among themselves and in third parts are judged by `screws-cross` and `screw-meets-part`, with some room.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from model.frames import matrix_of
from model.kernel import placed
from model.meshes import Mesh, mesh_kept
from model.overlap import candidate_pairs, common_volume, overlap_volume
from model.piece import FixingMade, Piece
from plans.problems import Problem

if TYPE_CHECKING:
    import cadquery as cq

ALLOWED = 0.5  # mm3, as between parts


def check(piece: Piece) -> list[Problem]:
    """The first clash of every fixing, with a part or with a fixing; the fast test first, then the exact one."""
    parts = list(piece.parts.values())
    if all(_screw(fixing) for fixing in piece.fixings):
        return []
    driven = _driven(piece)
    meshes = [part.mesh for part in parts] + [mesh for _, _, mesh in driven]
    found: dict[int, Problem] = {}
    for i, j in candidate_pairs(meshes, 0.0):
        if j < len(parts):
            continue
        fixing, solid, mesh = driven[j - len(parts)]
        if fixing.number in found:
            continue
        if _screw(fixing) and (i < len(parts) or _screw(driven[i - len(parts)][0])):
            continue
        if i < len(parts) and not fixing.bored and parts[i].name in (fixing.through, fixing.into):
            continue
        if i < len(parts):
            name = parts[i].name
            other: cq.Shape = placed(parts[i].sharp, parts[i].at)
        else:
            other, name = driven[i - len(parts)][1], f"another {driven[i - len(parts)][0].kind}"
        volume = _shared(meshes[i], mesh, other, solid)
        if volume > ALLOWED:
            found[fixing.number] = _problem(piece, fixing, name, volume)
    return [found[number] for number in sorted(found)]


def _driven(piece: Piece) -> list[tuple[FixingMade, cq.Shape, Mesh]]:
    """Every fixing with its solid and its triangles; those of one place are meshed once."""
    found = []
    for fixing in piece.fixings:
        if fixing.solid is not None:
            mesh = mesh_kept(fixing.solid)
            found += [(fixing, fixing.solid.moved(at), mesh.moved(matrix_of(at))) for at in fixing.at]
    return found


def _screw(fixing: FixingMade) -> bool:
    return fixing.kind == "wood screw"


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
