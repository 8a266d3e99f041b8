"""A view of something, as plain numbers: what a drawing is made from once the geometry kernel has done its work.

View coordinates are millimetres of the thing itself, x to the right and y up the page, the origin
being where the piece's own origin falls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from publish.drawing.box import Box, Point

Reals = Sequence[float] | NDArray[np.float64]
Direction = tuple[float, float, float]
StrokeKind = Literal["visible", "hidden", "smooth", "frame", "break", "beyond"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, turning left from `start` to `end` (radians, start < end <= start + 2 pi)."""

    centre: Point
    radius: float
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Bezier:
    """A cubic curve by its four points."""

    points: tuple[Point, Point, Point, Point]


Shape = Line | Arc | Bezier


@dataclass(frozen=True, slots=True)
class Stroke:
    """One line of a view.

    `smooth` is an edge at which two faces run into each other without a corner; a `frame` is round what is drawn again
    larger, a `break` where something is left out; `beyond` lies behind the plane of a section.
    """

    kind: StrokeKind
    shape: Shape


@dataclass(frozen=True)
class Axes:
    """How a view looks at the piece: three unit vectors square to each other.

    right: where the page's right is; up: where its top is; towards: from the piece to the viewer.
    """

    right: Direction
    up: Direction
    towards: Direction

    def at(self, point: Reals) -> Point:
        """Where a point of the piece falls in the view."""
        return _dot(self.right, point), _dot(self.up, point)

    def depth(self, point: Reals) -> float:
        """How near the viewer a point is (larger is nearer)."""
        return _dot(self.towards, point)


@dataclass(frozen=True)
class View:
    """A view with its hidden lines taken out, or told apart."""

    axes: Axes
    strokes: tuple[Stroke, ...]
    box: Box

    def at(self, point: Reals) -> Point:
        """Where a point of the piece falls in the view."""
        return self.axes.at(point)


def axes_of(towards: Reals, right: Reals) -> Axes:
    """Axes of a view from the way to the viewer and (roughly) the page's right.

    `right` is made square to `towards`; ValueError where the two are parallel or nothing.
    """
    out = _unit(towards)
    along = _dot(right, out)
    x = _unit([r - along * o for r, o in zip(right, out, strict=True)])
    up = (
        out[1] * x[2] - out[2] * x[1],
        out[2] * x[0] - out[0] * x[2],
        out[0] * x[1] - out[1] * x[0],
    )
    return Axes(x, up, out)


def _dot(a: Reals, b: Reals) -> float:
    return float(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])


def _unit(vector: Reals) -> Direction:
    size = _dot(vector, vector) ** 0.5
    if size < 1e-9:
        raise ValueError(f"a view needs two directions that differ, not {tuple(vector)}")
    return vector[0] / size, vector[1] / size, vector[2] / size
