"""Many boxes and segments at once: the tests of `box`, one number at a time the same, on rows of arrays.

Boxes are 4 x ... (left, bottom, right, top), segments 4 x ... (x0, y0, x1, y1), paper mm. Shapes after the 4 broadcast.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from publish.drawing.box import Box, Segment

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]


def stacked(rows: Sequence[Box] | Sequence[Segment]) -> Floats:
    """4 x n, of boxes or segments."""
    return np.ascontiguousarray(np.array(rows, dtype=np.float64).reshape(-1, 4).T)


def grown(boxes: Floats, by: float | Floats) -> Floats:
    """The boxes with `by` mm more on every side."""
    left, bottom, right, top = boxes
    return np.stack([left - by, bottom - by, right + by, top + by])


def bounds(segments: Floats) -> Floats:
    """The upright box round each segment."""
    x0, y0, x1, y1 = segments
    return np.stack([np.minimum(x0, x1), np.minimum(y0, y1), np.maximum(x0, x1), np.maximum(y0, y1)])


def meet(a: Floats, b: Floats) -> Bools:
    """Whether boxes share some area (touching edges do not count)."""
    shared: Bools = (a[0] < b[2]) & (b[0] < a[2]) & (a[1] < b[3]) & (b[1] < a[3])
    return shared


def hold(outer: Box, boxes: Floats, slack: float = 1e-6) -> Bools:
    """Whether each box lies wholly inside `outer`, edges included."""
    left, bottom, right, top = boxes
    inside: Bools = (
        (left >= outer.left - slack)
        & (right <= outer.right + slack)
        & (bottom >= outer.bottom - slack)
        & (top <= outer.top + slack)
    )
    return inside


def run_through(segments: Floats, boxes: Floats) -> Bools:
    """Whether a part of a segment lies inside a box (Liang and Barsky's clipping, 1984)."""
    x0, y0, x1, y1 = segments
    left, bottom, right, top = boxes
    outside: Bools = np.zeros(np.broadcast_shapes(x0.shape, left.shape), dtype=np.bool_)
    start, end = np.zeros(outside.shape), np.ones(outside.shape)
    for step, low, high in ((x1 - x0, x0 - left, right - x0), (y1 - y0, y0 - bottom, top - y0)):
        level = step == 0.0
        outside |= level & ((low <= 0.0) | (high <= 0.0))
        along = np.where(level, 1.0, step)
        enters, leaves = low / -along, high / along
        start = np.maximum(start, np.where(level, 0.0, np.minimum(enters, leaves)))
        end = np.minimum(end, np.where(level, 1.0, np.maximum(enters, leaves)))
    inside: Bools = ~outside & (start < end)
    return inside


def cross(p: Floats, q: Floats, slack: float = 1e-9) -> Bools:
    """Whether segments cross or touch; collinear overlap counts too."""
    px0, py0, px1, py1 = p
    qx0, qy0, qx1, qy1 = q
    pdx, pdy, qdx, qdy = px1 - px0, py1 - py0, qx1 - qx0, qy1 - qy0
    a = pdx * (qy0 - py0) - pdy * (qx0 - px0)
    b = pdx * (qy1 - py0) - pdy * (qx1 - px0)
    c = qdx * (py0 - qy0) - qdy * (px0 - qx0)
    d = qdx * (py1 - qy0) - qdy * (px1 - qx0)
    aside = (np.minimum(a, b) > slack) | (np.maximum(a, b) < -slack)
    aside |= (np.minimum(c, d) > slack) | (np.maximum(c, d) < -slack)
    p_box, q_box = bounds(p), bounds(q)
    apart = (p_box[2] < q_box[0] - slack) | (q_box[2] < p_box[0] - slack)
    apart |= (p_box[3] < q_box[1] - slack) | (q_box[3] < p_box[1] - slack)
    crossing: Bools = ~(aside | apart)
    return crossing


def shortened(segments: Floats, by: float = 0.25) -> Floats:
    """The segments `by` mm shorter at each end; those under 1 mm as they are."""
    x0, y0, x1, y1 = segments
    long = np.hypot(x1 - x0, y1 - y0)
    share = np.where(long < 1.0, 0.0, by / np.where(long < 1.0, 1.0, long))
    dx, dy = (x1 - x0) * share, (y1 - y0) * share
    return np.stack([x0 + dx, y0 + dy, x1 - dx, y1 - dy])


def far_from(points: Floats, segments: Floats) -> Floats:
    """How far points (2 x ...) lie from segments, mm."""
    x0, y0, x1, y1 = segments
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    share = ((points[0] - x0) * dx + (points[1] - y0) * dy) / np.where(square > 0.0, square, 1.0)
    share = np.clip(np.where(square > 0.0, share, 0.0), 0.0, 1.0)
    far: Floats = np.hypot(points[0] - x0 - share * dx, points[1] - y0 - share * dy)
    return far
