"""How much wood lies along a line, and whether a point lies in it: exact, by the kernel, and quick.

The line is met with every face, and the stretches between are told by a point in the middle. The kernel's boolean of
a line and a solid gives the same and takes ten times as long.
"""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.TopAbs import TopAbs_State

from model.frames import Vector
from model.kernel import REACH
from model.once import once

NEAR = 1e-6  # mm: as near to a face is on it
SAME = 1e-7  # mm: places along a line nearer than this are one


class Probe:
    """One solid, made ready to be asked."""

    def __init__(self, solid: cq.Shape) -> None:
        self._meets = IntCurvesFace_ShapeIntersector()
        self._meets.Load(solid.wrapped, NEAR)
        self._holds = BRepClass3d_SolidClassifier(solid.wrapped)

    def holds(self, point: Vector) -> bool:
        """Whether a point lies inside the solid or on it."""
        self._holds.Perform(gp_Pnt(*(float(c) for c in point)), NEAR)
        return self._holds.State() == TopAbs_State.TopAbs_IN or bool(self._holds.IsOnAFace())

    def wood(self, start: Vector, direction: Vector) -> list[tuple[float, float]]:
        """The stretches of wood ahead of a point, nearest first: how far off each begins and ends (mm, up to REACH).

        What runs along a face counts as wood.
        """
        line = gp_Lin(gp_Pnt(*(float(c) for c in start)), gp_Dir(*(float(c) for c in direction)))
        self._meets.Perform(line, 0.0, REACH)
        met = sorted(self._meets.WParameter(n) for n in range(1, self._meets.NbPnt() + 1))
        found: list[tuple[float, float]] = []
        for begin, end in pairwise([0.0, *met]):
            if end - begin < SAME or not self.holds(start + direction * (begin + end) / 2):
                continue
            if found and begin - found[-1][1] < SAME:
                begin = found.pop()[0]
            found.append((begin, end))
        return found


@once
def probe(solid: cq.Shape) -> Probe:
    """The probe of a solid, kept with it."""
    return Probe(solid)
