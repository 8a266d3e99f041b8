"""Sections through the piece: what is cut in heavy outline, ready to be hatched, and what stands behind it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from model.cutting_planes import CutFace, CuttingPlane, behind, cut_faces, cutting_planes
from model.piece import Piece
from publish.drawing.hatching import Hatch
from publish.drawing.strokes import bounds
from publish.drawing.view import Line, Stroke, View
from publish.hatches import hatch_of, told_apart
from publish.project import view

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
        return hatch_of(self.faces[number].stuff, self.plane, self.ways[number], scale)


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
    return SectionView(plane, lines, tuple(faces), tuple(told_apart(faces)))
