"""Every mortise and its tenon as plain blocks in the piece, to be measured from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import manifold3d
import numpy as np

from model.frames import Vector, apply, matrix_of, turn
from model.grain import thick_axis, wide_axis
from model.holding import depth_into, habits
from model.meshes import Floats
from model.once import once
from model.piece import Feature, JointMade, Part, Piece
from plans.joints import LooseTenon, MortiseAndTenon


@dataclass(frozen=True)
class Mortise:
    """A mortise in the part `host` for a tenon of the part `guest`, or for a loose one (mm, unit vectors in the piece).

    centre: where the middle of the tenon passes the face; inward: the way the tenon goes; normal: square to the
    face it enters, out of the wood; wide, thick: half of the mouth each way, with the room for glue; deep: square to
    the face; long: how far the tenon goes in, square to the face; through: whether it comes out on the far side.
    """

    joint: JointMade
    entry: MortiseAndTenon | LooseTenon
    host: str
    guest: str
    centre: Vector
    inward: Vector
    normal: Vector
    across_wide: Vector
    across_thick: Vector
    wide: float
    thick: float
    deep: float
    long: float
    through: bool

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
        step = self.inward * (self.reach + grow)
        return np.array([*mouth, *(corner + step for corner in mouth)])

    def block(self, grow: float = 0.0) -> manifold3d.Manifold:
        """The hollow as a body, `grow` mm larger beside and below."""
        return manifold3d.Manifold.hull_points(self.corners(grow))


@once
def mortises(piece: Piece) -> tuple[Mortise, ...]:
    """Every one of the piece: a twin or split tenon has several, a loose one has one in each of the two parts."""
    found: list[Mortise] = []
    cut = {
        name: [feature for feature in part.features if feature.kind == "mortise"] for name, part in piece.parts.items()
    }
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if isinstance(entry, MortiseAndTenon):
            count = (1 if entry.twin is None else 2) * (1 if entry.split is None else 2)
            features = _taken(cut[joint.b], joint.a, count)
            found += [_tenoned(piece, joint, entry, feature) for feature in features]
        elif isinstance(entry, LooseTenon):
            for host, guest, sign in ((joint.a, joint.b, -1.0), (joint.b, joint.a, 1.0)):
                for feature in _taken(cut[host], guest, entry.per_place):
                    found.append(_loose(piece, joint, entry, feature, host, guest, sign))
    return tuple(found)


def _taken(features: list[Feature], other: str, count: int) -> Iterator[Feature]:
    """The next `count` mortises for a part, in the order in which its joints were cut."""
    mine = [feature for feature in features if feature.other == other][:count]
    for feature in mine:
        features.remove(feature)
        yield feature


def _tenoned(piece: Piece, joint: JointMade, entry: MortiseAndTenon, feature: Feature) -> Mortise:
    a, b = piece.parts[joint.a], piece.parts[joint.b]
    inward = np.array(joint.direction)
    centre = apply(matrix_of(b.at), np.array(feature.callouts[0].point))
    normal = _face_normal(b, centre, inward)
    fit = habits(piece).fit if entry.fit is None else entry.fit
    long = joint.travel - (entry.proud or 0.0)
    deep = long if entry.through else _number(feature, "deep")
    wide, thick = _number(feature, "wide") / 2 + fit, entry.thick / 2 + fit
    axes = wide_axis(a), thick_axis(a)
    return Mortise(
        joint, entry, b.name, a.name, centre, inward, normal, *axes, wide, thick, deep, long, through=entry.through
    )


def _loose(
    piece: Piece, joint: JointMade, entry: LooseTenon, feature: Feature, host: str, guest: str, sign: float
) -> Mortise:
    part = piece.parts[host]
    matrix = matrix_of(part.at)
    inward = np.array(joint.direction) * sign
    fit = habits(piece).fit if entry.fit is None else entry.fit
    # the longer way of the mouth, as its drawing sets it out
    sizes = [size for size in feature.sizes if size.role == "size"]
    longest = max(sizes, key=lambda size: size.value, default=None)
    along = wide_axis(part) if longest is None else turn(matrix, np.subtract(longest.end, longest.start))
    along = along - inward * float(along @ inward)
    along = along / np.linalg.norm(along)
    return Mortise(
        joint,
        entry,
        host,
        guest,
        apply(matrix, np.array(feature.callouts[0].point)),
        inward,
        -inward,
        along,
        np.cross(inward, along),
        entry.wide / 2 + fit,
        entry.thick / 2 + fit,
        _number(feature, "deep"),
        depth_into(entry)[1 if sign > 0 else 0],
        through=False,
    )


def _number(feature: Feature, key: str) -> float:
    value = feature.callouts[0].values[key]
    assert isinstance(value, int | float)
    return float(value)


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
