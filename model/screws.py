"""Every screw of the piece as a line with a shank and a head, and the wood it passes through."""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import numpy as np

from model.frames import Vector
from model.meshes import Floats
from model.piece import FixingMade, Piece
from plans.fixings import WoodScrew

FACETS = 16


@dataclass(frozen=True)
class Driven:
    """One screw (mm): from the seat of its head to its tip, and `mouth`, where it passes from part to part."""

    fixing: FixingMade
    entry: WoodScrew
    seat: Vector
    direction: Vector
    diameter: float
    head: float
    long: float
    clamped: float  # wood of the upper part it goes through

    @property
    def tip(self) -> Vector:
        """Where the point ends."""
        return self.seat + self.direction * self.long

    @property
    def mouth(self) -> Vector:
        """Where it goes into the lower part."""
        return self.seat + self.direction * self.clamped

    @property
    def bite(self) -> float:
        """Length of it in the lower part."""
        return self.long - self.clamped

    def bored(self) -> manifold3d.Manifold:
        """What is bored away for it in the lower part, and a little more."""
        return _bar(self.diameter / 2, self.bite).transform(_placing(self.mouth, self.direction))

    def body(self) -> manifold3d.Manifold:
        """The shank as a round bar, and the head as a disc as thick as half its width."""
        bar = _bar(self.diameter / 2, self.long)
        return (bar + _bar(self.head / 2, self.head / 4)).transform(_placing(self.seat, self.direction))


def driven(piece: Piece) -> list[Driven]:
    """Every single screw, in the order made."""
    return [one for fixing in piece.fixings for one in _of(piece, fixing)]


def _of(piece: Piece, fixing: FixingMade) -> list[Driven]:
    entry = piece.design.spec.fixings[fixing.number]
    values, direction = fixing.values, np.array(fixing.direction)
    sunk = entry.plugged or 0.0
    feature = next(f for f in piece.parts[fixing.through].features if f.kind == "screw hole" and f.other == fixing.into)
    head = feature.callouts[0].values["head"]
    depth = _depth(piece, fixing, direction)
    return [
        Driven(
            fixing,
            entry,
            np.array(point) + direction * sunk,
            direction,
            float(values["diameter"] or 0.0),
            float(head or 0.0),
            entry.long,
            depth - sunk,
        )
        for point in fixing.points
    ]


def _depth(piece: Piece, fixing: FixingMade, direction: Vector) -> float:
    """From the face where the heads sit to where the parts touch (mm)."""
    pilot = next(f for f in piece.parts[fixing.into].features if f.kind == "pilot hole" and f.other == fixing.through)
    bite = pilot.callouts[0].values["deep"]
    assert isinstance(bite, float)
    entry = piece.design.spec.fixings[fixing.number]
    return entry.long - bite + (entry.plugged or 0.0)


def _bar(radius: float, length: float) -> manifold3d.Manifold:
    return manifold3d.Manifold.cylinder(length, radius, radius, FACETS)


def _placing(point: Vector, direction: Vector) -> Floats:
    """3 x 4: carries the z axis onto a line."""
    rough = np.eye(3)[int(np.argmin(np.abs(direction)))]
    u = np.cross(rough, direction)
    u = u / np.linalg.norm(u)
    return np.column_stack([u, np.cross(direction, u), direction, point])


def around(direction: Vector, count: int = 24) -> Floats:
    """K x 3 unit vectors square to a direction, all round it."""
    turn = _placing(np.zeros(3), direction)[:, :2]
    angles = [2 * math.pi * i / count for i in range(count)]
    return np.array([turn @ np.array([math.cos(a), math.sin(a)]) for a in angles])
