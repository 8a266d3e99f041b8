"""Moving parts out along the way they really come apart, sub-assemblies first."""

from __future__ import annotations

import numpy as np

from model.frames import Vector, placing
from model.meshes import Mesh
from model.piece import Piece
from model.sequence import Leg, Move, Stage

LEAST = 70.0  # mm a part is moved at the least
SHARE = 0.22  # of the reach of what moves, along its way


def shifts_of_stage(piece: Piece, stage: Stage) -> dict[str, Vector]:
    """Shift (mm) of every moved part of one stage, from where it belongs."""
    found: dict[str, Vector] = {}
    for move in stage.moves:
        shift = _shift(piece, move)
        for name in move.parts:
            found[name] = shift
    return found


def exploded(piece: Piece, stages: tuple[Stage, ...]) -> dict[str, Vector]:
    """Shift (mm) of every part with the whole piece taken apart: a part moves with each group it is in."""
    shifts = {name: np.zeros(3) for name in piece.parts}
    for stage in (single for stage in stages for single in stage.every):
        for name, shift in shifts_of_stage(piece, stage).items():
            shifts[name] = shifts[name] + shift
    return shifts


def _shift(piece: Piece, move: Move) -> Vector:
    if not move.path:
        return np.zeros(3)
    first: Leg = move.path[0]
    direction = np.array(first.direction)
    corners = np.vstack([piece.parts[name].mesh.box for name in move.parts])
    reach = float(np.ptp(corners @ np.abs(direction)))
    return direction * max(LEAST, SHARE * reach)


def moved_mesh(mesh: Mesh, shift: Vector) -> Mesh:
    """A mesh shifted by `shift` mm."""
    return mesh.moved(placing(np.eye(3), shift)) if np.any(shift) else mesh
