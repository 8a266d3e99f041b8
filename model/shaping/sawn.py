"""Edges sawn to a line: the line drawn on the face, and the wood outside it as one tool."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, round_point
from model.piece import Size
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side, third_axis

CLEAR = 1.0  # mm a tool stands outside the part
Place = tuple[float, float]  # mm from the datum end of the edge, mm in from it


@dataclass(frozen=True)
class SawnEdge:
    """Places along `edge` of a part, set out from `start`: an end, or a long side for an edge that is an end."""

    body: Body
    edge: Side
    start: Side

    @property
    def along(self) -> Axis:
        """The way the edge runs."""
        return SIDE_AXIS[self.start]

    @property
    def across(self) -> Axis:
        """The way one looks to see the line."""
        return third_axis(SIDE_AXIS[self.edge], self.along)

    @property
    def length(self) -> float:
        """Of the edge (mm)."""
        return self.body.blank.size(self.along)

    @property
    def depth(self) -> float:
        """Of the part, square to the edge (mm)."""
        return self.body.blank.size(SIDE_AXIS[self.edge])

    def point(self, place: Place, at: float | None = None) -> Vector:
        """A place in the standing frame, in the middle across the part or `at` a coordinate there."""
        point = self.body.blank.middle()
        for side, distance in ((self.start, place[0]), (self.edge, place[1])):
            point[AXIS_NUMBER[SIDE_AXIS[side]]] = self.body.blank.at(side) - SIDE_SIGN[side] * distance
        if at is not None:
            point[AXIS_NUMBER[self.across]] = at
        return point

    def tool(self, line: Sequence[cq.Edge], corners: Sequence[Place]) -> cq.Solid:
        """What lies between `line` and `corners`: straight from its end to each of them, and back to its start.

        The edges of `line` lie in the plane of `near`.
        """
        points = [self.point(corner, self.near) for corner in corners]
        first, last = kernel.array(line[0].startPoint()), kernel.array(line[-1].endPoint())
        ring = [last, *points, first]
        straight = [
            cq.Edge.makeLine(kernel.vector(a), kernel.vector(b))
            for a, b in pairwise(ring)
            if np.linalg.norm(a - b) > 1e-9
        ]
        wire = cq.Wire.assembleEdges([*line, *straight])
        low, high = self.body.blank.of(self.across)
        through = np.zeros(3)
        through[AXIS_NUMBER[self.across]] = high - low + 2 * CLEAR
        return cq.Solid.extrudeLinear(wire, [], kernel.vector(through))

    @property
    def near(self) -> float:
        """Where the lines of tools lie: a little outside the part, across."""
        return self.body.blank.of(self.across)[0] - CLEAR

    def seen(self) -> Side:
        """The side from which the line is seen true."""
        return self.body.datum_side(self.across)

    def inward(self, name: str, place: Place) -> Size:
        """How far in from the edge a place lies."""
        start, end = self.point((place[0], 0.0)), self.point(place)
        return Size(name, place[1], SIDE_AXIS[self.edge], round_point(start), round_point(end), self.seen(), "size")

    def between(self, name: str, a: Place, b: Place) -> Size:
        """The distance of two places along the edge."""
        value = abs(b[0] - a[0])
        return Size(
            name, value, self.along, round_point(self.point(a)), round_point(self.point(b)), self.seen(), "size"
        )

    def placed(self, name: str, place: Place) -> Size:
        """How far a place is from the end where the tape is hooked."""
        end = self.point(place)
        start = end.copy()
        number = AXIS_NUMBER[self.along]
        datum = self.body.datum_end if self.along == self.body.runs else self.body.datum_side(self.along)
        start[number] = self.body.blank.at(datum)
        value = abs(float(end[number] - start[number]))
        return Size(name, value, self.along, round_point(start), round_point(end), self.seen(), "position")
