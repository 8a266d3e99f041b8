"""The outer flat faces of a part: those it could lie on, or a clamp could stand on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model.meshes import Floats
from model.once import once
from model.piece import Part

NOISE = 1e-3  # mm


@dataclass(frozen=True)
class OuterFace:
    """A flat face with nothing of its part beyond it: normal . p = offset (mm, in the piece); corners K x 3."""

    normal: Floats
    offset: float
    corners: Floats


@once
def outer_faces(part: Part) -> list[OuterFace]:
    """Every such face of the sharp body; the walls of a mortise are none."""
    mesh = part.mesh
    found = []
    for number in np.flatnonzero(mesh.flat):
        mine = mesh.face == number
        if mine.any():
            normal, corners = mesh.normals[mine][0], mesh.corners[mine].reshape(-1, 3)
            offset = float(np.mean(corners @ normal))
            if float((mesh.vertices @ normal).max()) < offset + NOISE:
                found.append(OuterFace(normal, offset, corners))
    return found
