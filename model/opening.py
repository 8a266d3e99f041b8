"""Where the parts of a drawer, a door or a lid are when it is open."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model.frames import Matrix, Vector, apply, axis_vector, location, matrix_of, placing, side_vector, turn
from model.kernel import placed
from model.meshes import Mesh
from model.piece import AssemblyMade, Piece
from plans.placing import Opens
from plans.sides import AXES, AXIS_NUMBER, OPPOSITE, SIDE_AXIS, SIDE_SIGN, Side

STEP = 25.0  # mm between the places looked at on the way out
TURN = 1.0  # degrees between them: a corner that binds has often cleared the frame a few degrees on


@dataclass(frozen=True)
class Opened:
    """One assembly, opened in part or in full: `motion` carries it (piece frame) from where it is when shut."""

    piece: Piece
    assembly: AssemblyMade
    motion: Matrix
    by: float  # mm pulled out, or degrees swung

    def meshes(self) -> dict[str, Mesh]:
        """Its parts as triangles where they are now, by name."""
        return {name: self.piece.parts[name].mesh.moved(self.motion) for name in self.assembly.parts}

    def solids(self) -> dict[str, cq.Shape]:
        """Its parts as solids where they are now, by name."""
        place = location(self.motion)
        parts = {name: self.piece.parts[name] for name in self.assembly.parts}
        return {name: placed(part.sharp, part.at, place) for name, part in parts.items()}


def opened(piece: Piece) -> dict[str, Opened]:
    """Every assembly that opens, by name, opened as far as the design says."""
    return {made.name: way[-1] for made in piece.assemblies if (way := tuple(opening(piece, made)))}


def opening(piece: Piece, made: AssemblyMade) -> Iterator[Opened]:
    """One assembly in small steps on its way, the last one fully open; none where it does not open."""
    opens = piece.design.spec.assemblies[made.kind].opens
    if opens is None:
        return
    for side, far in opens.pulled.items():
        way = side_vector(_as_it_stands(side, made)) * far
        count = math.ceil(far / STEP)
        for n in range(1, count + 1):
            yield Opened(piece, made, placing(np.eye(3), way * n / count), far * n / count)
    pin = turns_about(piece, made, opens)
    if opens.angle is not None and pin is not None:
        count = math.ceil(opens.angle / TURN)
        for n in range(1, count + 1):
            degrees = opens.angle * n / count
            yield Opened(piece, made, _turned(piece, made, opens, pin, degrees), degrees)


def _as_it_stands(side: Side, made: AssemblyMade) -> Side:
    """A side that the design names, on a copy that may be a mirror image."""
    return OPPOSITE[side] if SIDE_AXIS[side] in made.mirrored else side


def turns_about(piece: Piece, made: AssemblyMade, opens: Opens) -> tuple[Vector, Vector] | None:
    """A point of the line it turns about, and the way that lies: the arris that is named, or the pin of its hinges."""
    if opens.about is not None:
        return _arris(piece, made, opens.about)
    inside = set(made.parts)
    for fixing in piece.fixings:
        if fixing.pin is not None and (fixing.through in inside) != (fixing.into in inside):
            at = matrix_of(fixing.at[0])
            return apply(at, fixing.pin[0]), turn(at, fixing.pin[1])
    return None


def _arris(piece: Piece, made: AssemblyMade, about: tuple[Side, Side]) -> tuple[Vector, Vector]:
    box = _box(piece, made)
    sides = [_as_it_stands(side, made) for side in about]
    point = box.mean(axis=0)
    for side in sides:
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        point[number] = box[0 if SIDE_SIGN[side] < 0 else 1][number]
    along = next(axis for axis in AXES if axis not in {SIDE_AXIS[side] for side in sides})
    return point, axis_vector(along)


def _box(piece: Piece, made: AssemblyMade) -> Vector:
    """Its lowest and highest corner (2 x 3)."""
    boxes = np.vstack([piece.parts[name].mesh.box for name in made.parts])
    return np.array([boxes.min(axis=0), boxes.max(axis=0)])


def _turned(piece: Piece, made: AssemblyMade, opens: Opens, pin: tuple[Vector, Vector], degrees: float) -> Matrix:
    """The turn about the pin by which its middle first moves off towards the side that the design names."""
    assert opens.towards is not None
    point, way = pin
    towards = side_vector(_as_it_stands(opens.towards, made))
    off = np.cross(way, _box(piece, made).mean(axis=0) - point)
    angle = math.radians(degrees) * (1 if float(off @ towards) > 0 else -1)
    x, y, z = way
    skew = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    rotation = np.eye(3) + math.sin(angle) * skew + (1 - math.cos(angle)) * skew @ skew  # Rodrigues
    return placing(rotation, point - rotation @ point)
