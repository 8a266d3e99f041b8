"""Edges that come in towards the ends, tapered or cranked."""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import round_point
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.channels import must_leave
from model.shaping.sawn import CLEAR, SawnEdge
from model.shaping.shaped import Shaped
from plans.shaping.relieved_ends import RelievedEnds
from plans.sides import SIDE_AXIS


def shape(body: Body, relief: RelievedEnds) -> Shaped:
    """One tool an end: its slope, and the straight length before it."""
    ends = relief.ends or body.ends
    must_leave(body.blank.size(SIDE_AXIS[relief.edge]) - relief.rise, "relief")
    if relief.level >= relief.long or relief.level < 0:
        raise KernelFault("the level length must be shorter than the whole relief")
    if relief.long * len(ends) > body.blank.size(body.runs):
        raise KernelFault("the reliefs are longer than the part")
    tools, sizes, callouts = [], [], []
    values: dict[str, Value] = {
        "sides": relief.edge,
        "rise": relief.rise,
        "long": relief.long,
        "level": relief.level,
        "ends": ", ".join(ends),
    }
    for end in ends:
        edge = SawnEdge(body, relief.edge, end)
        tools.append(_tool(edge, relief))
        sizes += _sizes(edge, relief)
        point = edge.point(((relief.long + relief.level) / 2, relief.rise / 2))
        callouts.append(Callout("relief", {**values, "end": end}, round_point(point), edge.seen()))
    operation = Operation("relief", dict(values))
    return Shaped(
        "outline", tuple(tools), Feature("relieved ends", "shaping", tuple(sizes), tuple(callouts), operation)
    )


def _tool(edge: SawnEdge, relief: RelievedEnds) -> cq.Solid:
    slope = (relief.level, relief.rise), (relief.long, 0.0)
    # a tapered end runs on along its own slope, a cranked one straight
    beyond = (-CLEAR, relief.rise * (1 + CLEAR / relief.long)) if not relief.level else (-CLEAR, relief.rise)
    places = [beyond, *slope] if relief.level else [beyond, slope[1]]
    points = [kernel.vector(edge.point(place, edge.near)) for place in places]
    line = [cq.Edge.makeLine(a, b) for a, b in pairwise(points)]
    return edge.tool(line, [(relief.long, -CLEAR), (-CLEAR, -CLEAR)])


def _sizes(edge: SawnEdge, relief: RelievedEnds) -> list[Size]:
    sizes = [edge.inward("end relief", (0.0, relief.rise)), edge.between("relief", (0.0, 0.0), (relief.long, 0.0))]
    if relief.level:
        sizes.append(edge.between("level end", (0.0, relief.rise), (relief.level, relief.rise)))
    return sizes
