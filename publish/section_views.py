"""Sections through the piece: what is cut in heavy outline, ready to be hatched, and what stands behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from model.cutting_planes import CutFace, CuttingPlane, behind, cut_faces, cutting_planes
from model.grain import grain, thick_axis
from model.piece import Piece
from publish.drawing.hatching import Hatch
from publish.drawing.strokes import bounds
from publish.drawing.view import Line, Stroke, View
from publish.project import view

END_GRAIN = (Hatch(45.0, 1.7), Hatch(-45.0, 1.7), Hatch(45.0, 1.05), Hatch(-45.0, 1.05))
LONG_GRAIN = (2.6, 1.7, 3.6, 1.2)  # mm apart
LEAST_APART = 0.7  # mm (ISO 128-20)
MOST_APART = 3.6
TELLS = 2  # parts a section has to cut to tell anything


@dataclass(frozen=True)
class SectionView:
    """A section: its lines, and the faces cut, each with its number among the ways to hatch that tell them apart."""

    plane: CuttingPlane
    lines: View
    faces: tuple[CutFace, ...]
    ways: tuple[int, ...]

    def hatch(self, number: int, scale: float) -> Hatch:
        """How face `number` is hatched on paper at a scale (paper mm a model mm)."""
        face, way = self.faces[number], self.ways[number]
        spec = face.part.spec
        if spec.sheet is not None and (across := _angle(face, thick_axis(face.part))) is not None:
            apart = face.part.over_all[2] * scale / 2
            return Hatch(across, min(max(apart, LEAST_APART), MOST_APART))
        if spec.wood and not face.shows_end_grain and (along := _angle(face, grain(face.part))) is not None:
            return Hatch(along, LONG_GRAIN[way % len(LONG_GRAIN)])
        return END_GRAIN[way % len(END_GRAIN)]


def section_views(piece: Piece) -> tuple[SectionView, ...]:
    """The sections that tell something: A-A from the right, B-B from the front."""
    found = (_section(piece, plane) for plane in cutting_planes(piece))
    return tuple(section for section in found if len(section.faces) >= TELLS)


def _section(piece: Piece, plane: CuttingPlane) -> SectionView:
    faces = cut_faces(piece, plane)
    seen = view(behind(piece, plane), plane.towards, plane.right)
    strokes = [replace(stroke, kind="beyond") for stroke in seen.strokes]
    for face in faces:
        for ring in face.rings:
            closed = [(float(x), float(y)) for x, y in (*ring, ring[0])]
            strokes += [Stroke("visible", Line(p, q)) for p, q in pairwise(closed)]
    lines = View(seen.axes, tuple(strokes), bounds(strokes))
    return SectionView(plane, lines, tuple(faces), tuple(_told_apart(faces)))


def _told_apart(faces: Sequence[CutFace]) -> list[int]:
    """A number for each face that none of those before it which it adjoins has, the least there is."""
    ways: list[int] = []
    for n, face in enumerate(faces):
        taken = {ways[m] for m in range(n) if face.adjoins(faces[m])}
        ways.append(next(way for way in range(len(faces)) if way not in taken))
    return ways


def _angle(face: CutFace, way: np.ndarray) -> float | None:
    """The angle at which a direction lies in the section (degrees); None where it is seen on end."""
    x, y = face.direction(way)
    return None if math.hypot(x, y) < 0.5 else math.degrees(math.atan2(y, x))
