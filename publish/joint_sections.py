"""The section of a joint as a view: what is cut in heavy outline, its breaks in thin line, ready to be hatched."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model.joint_samples import JointSample
from model.joint_sections import JointSection, joint_section
from model.piece import Piece
from publish.drawing.hatching import Hatch
from publish.drawing.strokes import bounds
from publish.drawing.view import Axes, Line, Stroke, View
from publish.hatches import hatch_of, told_apart


@dataclass(frozen=True)
class JointSectionView:
    """A section, its lines, and the number of each face among the ways to hatch that tell them apart."""

    section: JointSection
    lines: View
    ways: tuple[int, ...]

    def hatch(self, number: int, scale: float) -> Hatch:
        """How face `number` is hatched on paper at a scale (paper mm a model mm)."""
        return hatch_of(self.section.cuts[number].stuff, self.section.plane, self.ways[number], scale)


def joint_section_view(piece: Piece, sample: JointSample) -> JointSectionView | None:
    """The section of a joint that tells most of it; None where no plane cuts both members."""
    section = joint_section(piece, sample)
    if section is None:
        return None
    strokes = []
    for cut in section.cuts:
        for ring, broken in zip(cut.rings, cut.broken, strict=True):
            for start, end, off in zip(ring, np.roll(ring, -1, axis=0), broken, strict=True):
                kind = "break" if off else "visible"
                line = Line((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
                strokes.append(Stroke(kind, line))  # type: ignore[arg-type]
    plane = section.plane
    axes = Axes(*(tuple(way.tolist()) for way in (plane.right, plane.up, plane.towards)))
    lines = View(axes, tuple(strokes), bounds(strokes))
    return JointSectionView(section, lines, tuple(told_apart(section.cuts)))
