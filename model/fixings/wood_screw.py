"""Wood screws: a clear hole through the upper part, a pilot in the lower, a sunk or plugged head."""

from __future__ import annotations

import math
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.frames import Vector, apply, axis_vector, nearest_side, round_point, turn
from model.kernel import KernelFault
from model.overlap import Patch, contact_patches
from model.piece import Callout, Feature, FixingMade, Operation, Value
from model.shaping.hole import bore, centre_sizes
from plans.fixings.wood_screw import WoodScrew
from plans.library import metric_screw, screw, species

ROOM = 4.0  # a strip narrower than this many screw diameters is no place for a screw (common practice)
CLEAR = 1.0  # mm
INSIDE = 1e-3  # mm from the face, where wood is measured from


@dataclass(frozen=True)
class Bores:
    """What is bored for one screw (mm). Plugs are cut in steps of 1/8 in or 2 mm, larger than the head."""

    gauge: int
    diameter: float
    head: float
    shank: float
    pilot_hard: float
    pilot_soft: float
    plug: float


def bores(entry: WoodScrew) -> Bores:
    """The holes of the screw an entry names; the reader has seen to it that the table knows it."""
    if entry.gauge is not None:
        known = screw(entry.gauge)
        assert known is not None
        drills, diameter, head, plug_step = known.drills, known.diameter, known.head, 25.4 / 8
    else:
        known = metric_screw(entry.diameter or 0.0)
        assert known is not None
        drills, diameter, head, plug_step = known.metric_drills, known.metric_diameter, known.metric_head, 2.0
    plug = math.ceil(head / plug_step) * plug_step
    return Bores(known.gauge, diameter, head, drills.shank, drills.pilot_hard, drills.pilot_soft, plug)


@dataclass(frozen=True)
class Place:
    """One strip where two parts touch, with the points where screws cross it (piece frame)."""

    through: Body
    into: Body
    points: list[Vector]
    direction: Vector
    depth: float  # mm of the upper part that a screw goes through


def fix(bodies: dict[str, list[Body]], entry: WoodScrew, number: int) -> list[FixingMade]:
    """Find every strip wide enough for a screw where the two kinds touch, then bore all the holes."""
    size = bores(entry)
    places = [
        _place(through, into, patch, entry.per_place)
        for through in bodies[entry.through]
        for into in bodies[entry.into]
        if through is not into
        for patch in contact_patches(through.mesh(), into.mesh())
        if _width(patch) >= ROOM * size.diameter
    ]
    for place in places:
        _bore(place, entry, size)
    return [
        FixingMade(
            "wood screw",
            number,
            place.through.name,
            place.into.name,
            tuple(round_point(p - place.direction * place.depth) for p in place.points),
            round_point(place.direction),
            {"gauge": size.gauge, "diameter": size.diameter, "long": entry.long, "plugged": entry.plugged},
        )
        for place in places
    ]


def _width(patch: Patch) -> float:
    """The narrow way across a patch (mm): its area by its longest reach."""
    spread = np.linalg.norm(patch.outline[:, None, :] - patch.outline[None, :, :], axis=2).max()
    return float(patch.area / spread) if spread > 0 else 0.0


def _place(through: Body, into: Body, patch: Patch, count: int) -> Place:
    runs = [body.at[:3, :3] @ axis_vector(body.runs) for body in (through, into)]
    reaches = [float(np.ptp(patch.outline @ run)) for run in runs]
    along = runs[int(np.argmax(reaches))]
    along = along - patch.normal * float(along @ patch.normal)
    along = along / np.linalg.norm(along)
    if float(along.sum()) < 0:
        along = -along
    length = max(reaches)
    steps = [((i + 0.5) / count - 0.5) * length for i in range(count)]
    points = [patch.centroid + along * step for step in steps]
    return Place(through, into, points, patch.normal, _depth(through, points[0], patch.normal))


def _depth(through: Body, point: Vector, direction: Vector) -> float:
    """How much wood lies between a point on the lower face and the open air above it (mm)."""
    start, end = point - direction * INSIDE, point - direction * kernel.REACH
    line = cq.Edge.makeLine(kernel.vector(start), kernel.vector(end))
    inside = through.world(through.sharp).intersect(line).Edges()
    return float(sum(edge.Length() for edge in inside)) + INSIDE


def _bore(place: Place, entry: WoodScrew, size: Bores) -> None:
    sunk = entry.plugged or 0.0
    if sunk > place.depth - INSIDE:
        raise KernelFault(f"the plug goes right through {place.through.name}, which is {place.depth:.1f} mm there")
    bite = entry.long - (place.depth - sunk)
    if bite <= 0:
        raise KernelFault(
            f"the screw ends inside {place.through.name}: it is {entry.long:.1f} mm long and has "
            f"{place.depth - sunk:.1f} mm of wood to go through"
        )
    wood = species(place.into.spec.wood)
    pilot = size.pilot_soft if wood is not None and wood.group == "softwood" else size.pilot_hard
    upper, lower = place.through, place.into
    down, up = turn(upper.back, place.direction), turn(lower.back, place.direction)
    tops = [apply(upper.back, p - place.direction * place.depth) for p in place.points]
    mouths = [apply(lower.back, p) for p in place.points]
    tools: list[cq.Shape] = []
    for top in tops:
        tools.append(bore(top, down, size.shank, place.depth + CLEAR))
        tools.append(bore(top, down, size.plug, sunk) if sunk else _countersink(top, down, size))
    upper.cut(tools, f"the screw holes in {upper.name}")
    lower.cut([bore(mouth, up, pilot, bite) for mouth in mouths], f"the pilot holes in {lower.name}")
    shared: dict[str, Value] = {"gauge": size.gauge, "count": len(place.points)}
    above: dict[str, Value] = {**shared, "diameter": size.shank, "plugged": entry.plugged, "head": size.head}
    _note(upper, tops, -down, "screw hole", {**above, "plug": size.plug, "for": lower.kind}, lower)
    _note(lower, mouths, -up, "pilot hole", {**shared, "diameter": pilot, "deep": bite, "for": upper.kind}, upper)


def _countersink(top: Vector, down: Vector, size: Bores) -> cq.Solid:
    """A cone of 90 degrees, as wide as the head where it breaks the face."""
    wide = size.head / 2 + CLEAR
    return cq.Solid.makeCone(wide, 0.0, wide, kernel.vector(top - down * CLEAR), kernel.vector(down))


def _note(body: Body, centres: list[Vector], out: Vector, kind: str, values: dict[str, Value], other: Body) -> None:
    side = nearest_side(out)
    callout = Callout(kind, dict(values), round_point(centres[0]), side)
    # pilots are bored through the clear holes when the parts lie together: they have no place of their own to set out
    sizes = centre_sizes(body, centres, side, kind) if kind == "screw hole" else ()
    body.features.append(Feature(kind, "fixing", sizes, (callout,), Operation(kind, dict(values)), other.name))
