"""Cutters: a section run along an arris, a little outside both faces and past both ends.

Easing is done with them where the kernel's own fillet gives unsound solids, as on tapered parts (geometry
notes in DEVELOPERS.md); mouldings always are.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

import cadquery as cq
import numpy as np
from OCP.StdFail import StdFail_NotDone

from model import kernel
from model.frames import Matrix, Vector, inverse, location, placing
from model.kernel import KernelFault, Plane
from model.shaping.arrises import Arris, turn_between, unit

Form = Literal["round", "flat", "hollow"]

OUTSIDE = 1.0  # mm a cutter stands clear of the faces
PAST = 5.0  # mm a cutter runs past the free ends of its arris
EVEN = 0.02  # radians the angle between the faces may change along a curved arris


def taken_off(arris: Arris, size: float, form: Form) -> float:
    """Volume a cutter takes off a free-standing arris (mm3): the corner less the sector of the round."""
    length, turn = arris.length, turn_between(arris.first, arris.second)
    if form == "flat":
        return length * size * size * math.sin(math.pi - turn) / 2
    return length * size * size * (math.tan(turn / 2) - turn / 2)


def cutter(arris: Arris, size: float, form: Form) -> cq.Solid:
    """The tool that rounds an arris to radius `size`, hollows it, or cuts `size` off each face (mm)."""
    n1, n2 = arris.first, arris.second
    cosine = float(n1 @ n2)
    in_first = unit(cosine * n1 - n2)
    in_second = unit(cosine * n2 - n1)
    # half the angle inside the wood; the arc touches each face this far from the arris
    half = (np.pi - np.arccos(cosine)) / 2
    back = size / np.tan(half) if form == "round" else size
    origin = arris.start
    t1, t2 = origin + in_first * back, origin + in_second * back
    outer = origin + (n1 + n2) * OUTSIDE / (1 + cosine)
    corners = [t1, t1 + n1 * OUTSIDE, outer, t2 + n2 * OUTSIDE, t2]
    if form == "flat":
        return run(arris, corners, cq.Edge.makeLine(kernel.vector(t2), kernel.vector(t1)))
    centre = t1 - n1 * size if form == "round" else origin
    middle = centre + unit(n1 + n2) * (size if form == "round" else -size)
    return run(arris, corners, cq.Edge.makeThreePointArc(kernel.vector(t2), kernel.vector(middle), kernel.vector(t1)))


def stopped(tool: cq.Solid, arris: Arris, size: float, ends: Sequence[tuple[Vector, Vector]]) -> cq.Solid:
    """A flat cutter that leaves the wood at some ends: `ends` gives where the full flat stops, and the way on.

    From there it runs out at half a right angle: over a length of `size` along the arris.
    """
    for stop, onward in ends:
        n1, n2 = arris.first, arris.second
        cosine = float(n1 @ n2)
        t1, t2 = (stop + unit(cosine * a - b) * size for a, b in ((n1, n2), (n2, n1)))
        tip = stop + onward * size
        normal = unit(np.cross(t2 - t1, tip - t1))
        tool = kernel.one_solid(
            tool.cut(kernel.beyond(Plane(tip, normal if float(normal @ onward) > 0 else -normal))), "the stop"
        )
    return tool


def run(arris: Arris, corners: Sequence[Vector], last: cq.Edge) -> cq.Solid:
    """The section of straight lines between `corners`, closed by `last`, at the start of an arris, run along it.

    It goes on past each free end: where the wood goes on, as in an inner corner of the outline, it stops.
    """
    lines = [cq.Edge.makeLine(kernel.vector(a), kernel.vector(b)) for a, b in pairwise(corners)]
    section = cq.Wire.assembleEdges([*lines, last])
    before, after = (PAST if free else 0.0 for free in arris.free)
    ahead = kernel.array(arris.edge.tangentAt(0.0))
    if not arris.curved:
        tool = cq.Solid.extrudeLinear(section, [], kernel.vector(ahead * (arris.length + before + after)))
        return tool.moved(cq.Location(kernel.vector(-ahead * before)))
    tool = _along_the_curve(arris, section)
    if arris.edge.IsClosed():
        return tool
    here, there = _frame(arris, 0.0), _frame(arris, 1.0)
    onward = kernel.array(arris.edge.tangentAt(1.0))
    if before:
        tool = kernel.fuse(tool, cq.Solid.extrudeLinear(section, [], kernel.vector(-ahead * before)), "the cutter")
    if after:
        end = section.moved(location(there @ inverse(here)))
        tool = kernel.fuse(tool, cq.Solid.extrudeLinear(end, [], kernel.vector(onward * after)), "the cutter")
    return tool


def _along_the_curve(arris: Arris, section: cq.Wire) -> cq.Solid:
    """The section turned about the middle of a circle, or swept along any other line."""
    if abs(turn_between(*arris.last) - turn_between(arris.first, arris.second)) > EVEN:
        raise KernelFault("the faces meet at a changing angle along a curved arris")
    try:
        if arris.edge.geomType() == "CIRCLE":
            centre = arris.edge.arcCenter()
            out = arris.start - kernel.array(centre)
            axis = kernel.vector(np.cross(out, kernel.array(arris.edge.tangentAt(0.0))))
            angle = math.degrees(arris.length / float(np.linalg.norm(out)))
            tool: cq.Shape = cq.Solid.revolve(section, [], angle, centre, centre + axis)
        else:
            tool = cq.Solid.sweep(section, [], cq.Wire.assembleEdges([arris.edge]))
        return kernel.one_solid(tool, "the cutter")
    except StdFail_NotDone as fault:
        raise KernelFault("no cutter can be run along the curved arris") from fault


def _frame(arris: Arris, share: float) -> Matrix:
    """Tangent, normal of the first face and their cross product at one end of an arris, as a placing."""
    x = kernel.array(arris.edge.tangentAt(share))
    first = arris.first if share == 0 else arris.last[0]
    z = unit(first - x * float(first @ x))
    return placing(np.stack([x, np.cross(z, x), z], axis=1), arris.start if share == 0 else arris.end)
