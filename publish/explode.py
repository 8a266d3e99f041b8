"""Moving parts out along the way they really come apart, sub-assemblies first."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from model.frames import Vector, placing
from model.meshes import Mesh
from model.piece import Piece
from model.stages import Move, Stage

TOUCH = 0.5  # mm
LEAST = 40.0  # mm a part is moved at the least
SHARE = 0.22  # of the reach of what moves, along its way
OF_WHOLE = 0.12  # of the longest reach of all that is shown


def shifts_of_stage(piece: Piece, stage: Stage, wider: float = 1.0) -> dict[str, Vector]:
    """Shift (mm) of every part of one stage, from where it belongs; `wider`: times the usual way."""
    shifts = {name: np.zeros(3) for name in stage.parts}
    _take_apart(piece, stage, shifts, wider)
    return shifts


def exploded(piece: Piece, stages: tuple[Stage, ...]) -> dict[str, Vector]:
    """Shift (mm) of every part with the whole piece taken apart: a part moves with each group it is in.

    What it leaves may itself have moved the same way, a table's top after its rails: then it goes so much farther.
    """
    shifts = {name: np.zeros(3) for name in piece.parts}
    for single in (one for stage in stages for one in stage.every):
        _take_apart(piece, single, shifts, 1.0)
    return shifts


def _take_apart(piece: Piece, stage: Stage, shifts: dict[str, Vector], wider: float) -> None:
    """Put to `shifts` those of one stage, the moves of one turn after those of another."""
    for turn in stage.turns:
        moves = [(move.parts, stage.there(move), wider * _shift(piece, stage, move)) for move in turn]
        followed = [s + _following(piece, there, parts, s, shifts) for parts, there, s in moves]
        for (parts, _, _), shift in zip(moves, followed, strict=True):
            for name in parts:
                shifts[name] = shifts[name] + shift


def _following(
    piece: Piece, there: Sequence[str], parts: Sequence[str], shift: Vector, shifts: dict[str, Vector]
) -> Vector:
    """How much farther `parts` go because what they lie against has been moved before, along their own way."""
    away = float(np.linalg.norm(shift))
    if not away:
        return np.zeros(3)
    direction = shift / away
    left = [name for name in there if _near(piece, parts, name)]
    ahead = max((float(shifts[name] @ direction) for name in left), default=0.0)
    own = min(float(shifts[name] @ direction) for name in parts)
    return direction * max(0.0, ahead - own)


def _near(piece: Piece, parts: Sequence[str], other: str) -> bool:
    """Whether the box of `other` touches that of one of `parts`."""
    low, high = piece.parts[other].mesh.box
    boxes = (piece.parts[name].mesh.box for name in parts)
    return any(bool((a <= high + TOUCH).all() and (b >= low - TOUCH).all()) for a, b in boxes)


def _shift(piece: Piece, stage: Stage, move: Move) -> Vector:
    if not move.path:
        return np.zeros(3)
    direction = np.array(move.path[-1].direction)  # the way it comes from; a first short stretch only frees it
    reach = float(np.ptp(_corners(piece, move.parts) @ np.abs(direction)))
    whole = float(np.ptp(_corners(piece, stage.parts), axis=0).max())
    return direction * max(LEAST, SHARE * reach, OF_WHOLE * whole)


def _corners(piece: Piece, names: Sequence[str]) -> Vector:
    return np.vstack([piece.parts[name].mesh.box for name in names])


def moved_mesh(mesh: Mesh, shift: Vector) -> Mesh:
    """A mesh shifted by `shift` mm."""
    return mesh.moved(placing(np.eye(3), shift)) if np.any(shift) else mesh
