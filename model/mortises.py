"""Every mortise and its tenon as plain blocks in the piece, to be measured from."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np

from model.frames import Vector
from model.grain import thick_axis, wide_axis
from model.meshes import Floats
from model.piece import JointMade, Part, Piece, Value
from plans.joints import MortiseAndTenon


@dataclass(frozen=True)
class Mortise:
    """A mortise in the part `joint.b` for a tenon of `joint.a` (mm, unit vectors in the piece).

    centre: where the middle of the tenon passes the shoulder; inward: the way the tenon goes; normal: square to the
    face it enters, out of the wood; wide, thick: half of the mouth each way, with the room for glue; deep: square to
    the face; tenon: its length along itself.
    """

    joint: JointMade
    entry: MortiseAndTenon
    centre: Vector
    inward: Vector
    normal: Vector
    across_wide: Vector
    across_thick: Vector
    wide: float
    thick: float
    deep: float
    tenon: float

    @property
    def reach(self) -> float:
        """Length of the mortise along the way in, at its middle."""
        return self.deep / max(0.2, abs(float(self.inward @ self.normal)))

    def corners(self, grow: float = 0.0) -> Floats:
        """8 x 3: mouth, then bottom, the bottom parallel to the face."""
        mouth = []
        for w, t in ((-1, -1), (1, -1), (1, 1), (-1, 1)):
            offset = self.across_wide * (self.wide + grow) * w + self.across_thick * (self.thick + grow) * t
            slide = -float(offset @ self.normal) / float(self.inward @ self.normal)
            mouth.append(self.centre + offset + self.inward * slide)
        step = self.inward * self.reach
        return np.array([*mouth, *(corner + step for corner in mouth)])

    def block(self) -> manifold3d.Manifold:
        """The hollow as a body."""
        return manifold3d.Manifold.hull_points(self.corners())


def mortises(piece: Piece) -> list[Mortise]:
    """One for each mortise-and-tenon joint of the piece."""
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if isinstance(entry, MortiseAndTenon):
            found.append(_mortise(piece, joint, entry))
    return found


def _mortise(piece: Piece, joint: JointMade, entry: MortiseAndTenon) -> Mortise:
    a, b = piece.parts[joint.a], piece.parts[joint.b]
    inward = np.array(joint.direction)
    values = _values(b, joint.a)
    wide, deep = _number(values, "wide", a.spec.width), _number(values, "deep", entry.long)
    fit = 0.1 if entry.fit is None else entry.fit
    centre = np.array(joint.point)
    normal = _face_normal(b, centre, inward)
    lean = max(0.2, abs(float(inward @ normal)))
    return Mortise(
        joint,
        entry,
        centre,
        inward,
        normal,
        wide_axis(a),
        thick_axis(a),
        wide / 2 + fit,
        entry.thick / 2 + fit,
        deep,
        entry.long / lean,
    )


def _values(body: Part, other: str) -> dict[str, Value]:
    """What the mortise for a part says of itself."""
    for feature in body.features:
        if feature.kind == "mortise" and feature.other == other:
            return feature.callouts[0].values
    return {}


def _number(values: dict[str, Value], key: str, otherwise: float) -> float:
    value = values.get(key)
    return float(value) if isinstance(value, int | float) else otherwise


def _face_normal(body: Part, centre: Vector, inward: Vector) -> Vector:
    """The flat face of a part that passes through a point and looks against a direction: its normal."""
    mesh = body.mesh
    normals, offsets = mesh.normals, np.einsum("mi,mi->m", mesh.normals, mesh.corners[:, 0])
    against = -(normals @ inward)
    away = np.abs(normals @ centre - offsets)
    usable = (against > 0.3) & (away < 0.2)
    if not usable.any():
        return -inward
    normal: Vector = normals[np.flatnonzero(usable)[int(np.argmax(against[usable]))]]
    return normal
