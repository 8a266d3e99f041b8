"""The moulded edge of a table top."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import side_vector
from model.shaping.arrises import Arris
from model.shaping.cutters import OUTSIDE, run
from model.shaping.mouldings import mould
from model.shaping.shaped import Shaped
from plans.shaping.thumbnail import Thumbnail


def shape(body: Body, entry: Thumbnail) -> Shaped:
    """A rounding cutter with a step, run along each edge of the face."""
    wanted = [f"{entry.face} {edge}" for edge in entry.edges]
    values = {"radius": entry.radius, "step": entry.step}
    return mould(body, "thumbnail", wanted, dict(values), lambda arris: _cutter(entry, arris))


def _cutter(entry: Thumbnail, arris: Arris) -> cq.Solid:
    radius, step = entry.radius, entry.step
    up = arris.first if float(arris.first @ side_vector(entry.face)) > 0.5 else arris.second
    out = arris.second if up is arris.first else arris.first

    def corner(down: float, inward: float) -> np.ndarray:
        place: np.ndarray = arris.start - up * down - out * inward
        return place

    root, foot = corner(step, radius), corner(step + radius, 0.0)
    crown = corner(step + radius * (1 - 0.5**0.5), radius * (1 - 0.5**0.5))
    corners = [foot, corner(step + radius, -OUTSIDE), corner(-OUTSIDE, -OUTSIDE), corner(-OUTSIDE, radius), root]
    arc = cq.Edge.makeThreePointArc(kernel.vector(root), kernel.vector(crown), kernel.vector(foot))
    return run(arris, corners, arc)
