"""Clamps: which way a joint is pulled together, and how far the face under the clamp leans from square to the pull."""

from __future__ import annotations

import numpy as np

from model.faces import outer_faces
from model.frames import Vector
from model.grain import grain
from model.piece import JointMade, Piece
from plans.joints import Bridle, Dowel, Housing, LooseTenon, MortiseAndTenon

PULLED = MortiseAndTenon | Bridle | LooseTenon | Dowel | Housing
SQUARE = 2.0  # degrees a clamp's own pad takes up


def is_pulled(piece: Piece, joint: JointMade) -> bool:
    """Whether a joint is drawn together by clamps along the way its parts go in."""
    return joint.glued and isinstance(piece.design.spec.joints[joint.number], PULLED)


def pull_of(piece: Piece, joint: JointMade) -> Vector:
    """The way a clamp pulls (unit vector in the piece): from the part that goes in towards the other."""
    pull = np.array(joint.direction)
    if joint.kind == "bridle":  # slides in from the end; what is pulled tight is the shoulders, along the tongue
        along = grain(piece.parts[joint.a])
        middle = piece.parts[joint.a].mesh.box.mean(axis=0)
        pull = along * np.sign(float(along @ (np.array(joint.point) - middle)))
    return pull


def caul_angle(piece: Piece, joint: JointMade) -> float:
    """Between the pull of a clamp along the joint and the outer face it would stand on (degrees)."""
    b, pull = piece.parts[joint.b], pull_of(piece, joint)
    usable = [face.normal for face in outer_faces(b) if abs(float(face.normal @ grain(b))) < 0.7]
    best = max((float(normal @ pull) for normal in usable), default=0.0)
    return float(np.degrees(np.arccos(min(1.0, max(-1.0, best)))))
