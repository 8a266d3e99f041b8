"""Edges sawn to part of a circle."""

from __future__ import annotations

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import round_point
from model.kernel import KernelFault, spell
from model.piece import Callout, Feature, Operation, Size, Value
from model.shaping.channels import must_leave
from model.shaping.sawn import CLEAR, Place, SawnEdge
from model.shaping.shaped import Shaped
from plans.shaping.arc import Arc
from plans.sides import SIDE_AXIS


def shape(body: Body, arc: Arc) -> Shaped:
    """The wood between a circle through three places and the outside of the edge."""
    start = body.datum_end if SIDE_AXIS[arc.edge] != body.runs else body.datum_side(body.wide)
    edge = SawnEdge(body, arc.edge, start)
    must_leave(edge.depth - arc.rise, "arc")
    hollow = arc.bend == "hollow"
    flat = arc.flat if hollow else 0.0
    chord = edge.length - 2 * flat
    if arc.rise > chord / 2:
        raise KernelFault(f"an arc {spell(chord)} long can rise half of that at most")
    ends = 0.0 if hollow else arc.rise
    first, middle, last = (flat, ends), (edge.length / 2, arc.rise - ends), (edge.length - flat, ends)
    points = [kernel.vector(edge.point(place, edge.near)) for place in (first, middle, last)]
    line = [cq.Edge.makeThreePointArc(*points)]
    radius = (chord**2 / 4 + arc.rise**2) / (2 * arc.rise)
    values: dict[str, Value] = {"sides": arc.edge, "bend": arc.bend, "rise": arc.rise, "radius": radius}
    callout = Callout("arc", dict(values), round_point(edge.point(_on_it(arc, edge, chord))), edge.seen())
    feature = Feature("arc", "shaping", _sizes(edge, arc, first, last), (callout,), Operation("arc", dict(values)))
    return Shaped("outline", (edge.tool(line, _outside(edge, flat, ends)),), feature)


def _outside(edge: SawnEdge, flat: float, ends: float) -> list[Place]:
    """The corners of the tool outside the part, from the far end of the arc back to its beginning."""
    if flat:
        return [(edge.length - flat, -CLEAR), (flat, -CLEAR)]
    return [(edge.length + CLEAR, ends), (edge.length + CLEAR, -CLEAR), (-CLEAR, -CLEAR), (-CLEAR, ends)]


def _on_it(arc: Arc, edge: SawnEdge, chord: float) -> Place:
    """A place of the arc a quarter of its chord from the middle."""
    radius = (chord**2 / 4 + arc.rise**2) / (2 * arc.rise)
    fall = radius - (radius**2 - (chord / 4) ** 2) ** 0.5
    return edge.length / 2 - chord / 4, arc.rise - fall if arc.bend == "hollow" else fall


def _sizes(edge: SawnEdge, arc: Arc, first: Place, last: Place) -> tuple[Size, ...]:
    if arc.bend == "crown":
        return (edge.inward("rise", first),)
    sizes = [edge.inward("rise", (edge.length / 2, arc.rise))]
    if arc.flat:
        sizes += [edge.between("flat", (0.0, 0.0), first), edge.between("flat", last, (edge.length, 0.0))]
    return tuple(sizes)
