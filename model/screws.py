"""Every screw of the piece as a line with a shank and a head, and the wood it passes through."""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import numpy as np

from model.fixings.wood_screw import bores
from model.frames import Vector, apply, matrix_of
from model.meshes import Floats
from model.once import once
from model.piece import FixingMade, Piece
from model.rays import hits
from plans.fixings import WoodScrew

FACETS = 16
IN_LINE = 1e-2  # mm
BESIDE = 1.6  # diameters from the axis, clear of the hole, at which the wood is measured
INCH = 25.4
POUND_FORCE = 4.4482216152605  # N, NIST SP 811


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


@once
def driven(piece: Piece) -> tuple[Driven, ...]:
    """Every single wood screw, in the order made."""
    entries = piece.design.spec.fixings
    return tuple(
        one
        for fixing in piece.fixings
        if isinstance(entry := entries[fixing.number], WoodScrew)
        for one in _of(piece, fixing, entry)
    )


def _of(piece: Piece, fixing: FixingMade, entry: WoodScrew) -> list[Driven]:
    direction = np.array(fixing.direction)
    sunk = entry.plugged or entry.sunk or 0.0
    depth = _depth(piece, fixing, direction)
    return [
        Driven(
            fixing,
            entry,
            np.array(point) + direction * sunk,
            direction,
            float(fixing.values["diameter"] or 0.0),
            bores(entry).head,
            entry.long,
            depth - sunk,
        )
        for point in fixing.points
    ]


def _depth(piece: Piece, fixing: FixingMade, direction: Vector) -> float:
    """From the face where the heads sit to where the parts touch (mm): the first pilot lies in line with its head."""
    into, head = piece.parts[fixing.into], np.array(fixing.points[0])
    matrix = matrix_of(into.at)
    for feature in into.features:
        if feature.kind == "pilot hole" and feature.other == fixing.through:
            way = apply(matrix, np.array(feature.callouts[0].point)) - head
            depth = float(way @ direction)
            if float(np.linalg.norm(way - direction * depth)) < IN_LINE:
                return depth
    raise AssertionError(f"no pilot hole in {fixing.into} for {fixing.through}")


def room(piece: Piece, screw: Driven) -> float:
    """Wood of the lower part along the screw (mm): the middle one of several lines beside its hole."""
    corners = piece.parts[screw.fixing.into].mesh.corners
    ways = around(screw.direction, 8)
    starts = screw.mouth + ways * screw.diameter * BESIDE + screw.direction * 0.02
    distances = [float(met[0]) for met in hits(corners, starts, np.tile(screw.direction, (8, 1))) if len(met) % 2]
    return float(np.median(distances)) if distances else 0.0


def withdrawal(gravity: float, diameter: float, thread: float) -> float:
    """Load (N) a wood screw bears straight out of side grain: 2850 G2 D lbf for each inch of thread.

    The allowable value of the National Design Specification for Wood Construction, a fifth of what pulls it out;
    gravity is the specific gravity of the wood, diameter and thread are in mm.
    """
    return 2850.0 * gravity**2 * (diameter / INCH) * (thread / INCH) * POUND_FORCE


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
