"""Edges sawn to a smooth line through points."""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import round_point, side_vector
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Value
from model.shaping.channels import must_leave
from model.shaping.sawn import CLEAR, SawnEdge
from model.shaping.shaped import Shaped
from plans.shaping.curve import Curve
from plans.sides import AXIS_NUMBER, SIDE_AXIS

NEAR = 1e-6  # mm
SAMPLES = 400
OVERSHOOT = 0.05  # mm a curve may swing out of the edge between two points: less than a saw line is wide


def shape(body: Body, curve: Curve) -> Shaped:
    """The wood between the spline through the points and the outside of the edge."""
    edge = SawnEdge(body, curve.edge, curve.start)
    places = [(point.along, point.inward) for point in curve.through]
    if any(b[0] - a[0] <= NEAR for a, b in pairwise(places)):
        raise KernelFault("the points of the curve must follow each other along the part")
    if places[0][0] < -NEAR or places[-1][0] > edge.length + NEAR:
        raise KernelFault("the curve runs past the end of the part")
    spline = cq.Edge.makeSpline([kernel.vector(edge.point(place, edge.near)) for place in places])
    inward = _inward(edge, spline)
    if inward.min() < -OVERSHOOT:
        raise KernelFault("the curve swings out of the part between two of its points; add a point there")
    must_leave(edge.depth - float(inward.max()), "curve")
    corners = [(places[-1][0], -CLEAR), (places[0][0], -CLEAR)]
    values: dict[str, Value] = {"sides": curve.edge, "points": len(places)}
    middle = places[len(places) // 2]
    callout = Callout("curve", dict(values), round_point(edge.point(middle)), edge.seen())
    sizes = [edge.placed("curve position", place) for place in places if NEAR < place[0] < edge.length - NEAR]
    sizes += [edge.inward("curve depth", place) for place in places if place[1] > NEAR]
    feature = Feature("curve", "shaping", tuple(sizes), (callout,), Operation("curve", dict(values)))
    return Shaped("outline", (edge.tool([spline], corners),), feature)


def _inward(edge: SawnEdge, spline: cq.Edge) -> np.ndarray:
    """How far in from the edge the spline lies, at many places (mm)."""
    number = AXIS_NUMBER[SIDE_AXIS[edge.edge]]
    reach = np.array([spline.positionAt(i / SAMPLES).toTuple()[number] for i in range(SAMPLES + 1)])
    inward: np.ndarray = (edge.body.blank.at(edge.edge) - reach) * side_vector(edge.edge)[number]
    return inward
