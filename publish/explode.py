"""Moving parts out along the way they really come apart, sub-assemblies first."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from model.frames import Vector, placing
from model.meshes import Mesh
from model.piece import Piece
from model.sequence import Move, Stage

LEAST = 40.0  # mm a part is moved at the least
SHARE = 0.22  # of the reach of what moves, along its way
OF_WHOLE = 0.12  # of the longest reach of all that is shown


def shifts_of_stage(piece: Piece, stage: Stage) -> dict[str, Vector]:
    """Shift (mm) of every moved part of one stage, from where it belongs."""
    found: dict[str, Vector] = {}
    for move in stage.moves:
        shift = _shift(piece, stage, move)
        for name in move.parts:
            found[name] = shift
    return found


def exploded(piece: Piece, stages: tuple[Stage, ...]) -> dict[str, Vector]:
    """Shift (mm) of every part with the whole piece taken apart: a part moves with each group it is in."""
    shifts = {name: np.zeros(3) for name in piece.parts}
    for single in (one for stage in stages for one in stage.every):
        for name, shift in shifts_of_stage(piece, single).items():
            shifts[name] = shifts[name] + shift
    return shifts


def _shift(piece: Piece, stage: Stage, move: Move) -> Vector:
    if not move.path:
        return np.zeros(3)
    direction = np.array(move.path[0].direction)
    reach = float(np.ptp(_corners(piece, move.parts) @ np.abs(direction)))
    whole = float(np.ptp(_corners(piece, stage.parts), axis=0).max())
    return direction * max(LEAST, SHARE * reach, OF_WHOLE * whole)


def _corners(piece: Piece, names: Sequence[str]) -> Vector:
    return np.vstack([piece.parts[name].mesh.box for name in names])


def moved_mesh(mesh: Mesh, shift: Vector) -> Mesh:
    """A mesh shifted by `shift` mm."""
    return mesh.moved(placing(np.eye(3), shift)) if np.any(shift) else mesh
