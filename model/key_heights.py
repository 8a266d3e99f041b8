"""Key heights of a piece: level tops and undersides of what lies in it, measured from the floor."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from model.piece import Part, Piece

LEVEL = 0.02  # mm: a side this even is a height one can measure
FLAT = 0.9999  # cosine to upright
LEAST_APART = 12.0  # mm between two heights worth telling apart


@dataclass(frozen=True)
class Height:
    """A height (mm from the floor) and the part it belongs to."""

    level: float
    part: str
    side: Literal["top", "bottom"]


def heights(
    piece: Piece, parts: Iterable[Part], most: int, sides: Sequence[str] = ("top",), told: Sequence[float] = ()
) -> list[Height]:
    """Up to `most` between the floor and the top of the piece, far enough apart to be told, lowest first.

    `told`: levels (mm) that need not be told again.

    Where there are more, the tops count before the undersides: they are what one sits, stands or writes at.
    """
    found = [height for part in parts for height in _of_part(part) if height.side in sides]
    chosen: list[Height] = []
    whole = float(piece.size[2])
    for height in sorted(found, key=lambda h: (h.side == "bottom", h.level)):
        clear = all(abs(height.level - other) >= LEAST_APART for other in (*told, *(one.level for one in chosen)))
        if clear and LEAST_APART < height.level < whole - LEAST_APART and len(chosen) < most:
            chosen.append(height)
    return sorted(chosen, key=lambda h: h.level)


def _of_part(part: Part) -> list[Height]:
    """Its level top and underside; what stands upright has neither."""
    if part.spec.runs == "up-down":
        return []
    mesh = part.mesh
    found: list[Height] = []
    for row, sign, side in ((1, 1.0, "top"), (0, -1.0, "bottom")):
        level = float(mesh.box[row][2])
        faces = sign * mesh.normals[:, 2] > FLAT
        even = np.abs(mesh.corners[:, :, 2] - level).max(axis=1) < LEVEL
        if bool((faces & even).any()):
            found.append(Height(level, part.name, side))  # type: ignore[arg-type]
    return found
