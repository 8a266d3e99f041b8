"""Wood screws: a clear hole or a slot through the upper part, a pilot in the lower, a sunk or plugged head."""

from __future__ import annotations

import math
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import SLACK
from model.fixings.seating import INSIDE, Seat, depth_behind, frame, must_hold, seats
from model.frames import Vector, apply, axis_vector, location, nearest_side, round_point, side_vector, turn
from model.kernel import KernelFault, spell
from model.piece import Callout, Feature, FixingMade, Operation, Value
from model.shaping.hole import bore, centre_sizes
from model.slopes import bored_values
from plans.fixings.wood_screw import WoodScrew
from plans.library import metric_screw, screw, species
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDES, Side

ROOM = 4.0  # a strip narrower than this many screw diameters is no place for a screw (common practice)
CLEAR = 1.0  # mm
ON_SIDE = 0.05  # mm
STEEPEST = 0.1  # of a unit: a screw that comes out flatter than this comes out by no side


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
class Driven:
    """The screws of one strip: where they cross it (piece frame), and what each goes through (mm)."""

    seat: Seat
    points: list[Vector]
    depth: float  # of the upper part
    sunk: float  # of it, how deep the head lies
    bite: float  # in the lower part
    play: Vector | None  # how far, and which way, the screw may move to either side

    @property
    def heads(self) -> list[Vector]:
        """Where the screws enter the upper part."""
        return [point - self.seat.normal * self.depth for point in self.points]


def fix(bodies: dict[str, list[Body]], entry: WoodScrew, number: int) -> list[FixingMade]:
    """Find every strip wide enough for a screw where the two kinds touch, then bore all the holes."""
    size = bores(entry)
    strips = list(seats(bodies[entry.through], bodies[entry.into], ROOM * size.diameter))
    driven = [_driven(seat, entry, size) for seat in strips]
    for one in driven:
        _bore(one, entry, size)
    values: dict[str, Value] = {"gauge": size.gauge, "diameter": size.diameter, "long": entry.long}
    values |= {"plugged": entry.plugged}
    return [
        FixingMade(
            "wood screw",
            number,
            one.seat.upper.name,
            one.seat.lower.name,
            tuple(round_point(head) for head in one.heads),
            round_point(one.seat.normal),
            dict(values) | ({"washer": "yes"} if entry.slotted else {}),
            _plain(one, entry, size),
            tuple(location(frame(head, one.seat.normal, one.seat.along)) for head in one.heads),
            shown=False,
        )
        for one in driven
    ]


def _driven(seat: Seat, entry: WoodScrew, size: Bores) -> Driven:
    points = seat.row(entry.per_place)
    depth = depth_behind(seat.upper, points[0], seat.normal)
    sunk = entry.plugged or entry.sunk or 0.0
    if sunk > depth - INSIDE:
        what = "plug" if entry.plugged else "wider hole"
        raise KernelFault(f"the {what} goes right through {seat.upper.name}, which is {spell(depth)} there")
    bite = entry.long - (depth - sunk)
    if bite <= 0:
        raise KernelFault(
            f"the screw ends inside {seat.upper.name}: it is {spell(entry.long)} long and has "
            f"{spell(depth - sunk)} of wood to go through"
        )
    must_hold(seat.lower, points[0], seat.normal, bite, "screw")
    return Driven(seat, points, depth, sunk, bite, _play(seat, entry, size))


def _play(seat: Seat, entry: WoodScrew, size: Bores) -> Vector | None:
    if entry.slotted is None:
        return None
    way = axis_vector(entry.slotted)
    way = way - seat.normal * float(way @ seat.normal)
    if np.linalg.norm(way) < 0.5:
        raise KernelFault(f"the screw itself goes {entry.slotted}: its slot can only lie square to that")
    return way / np.linalg.norm(way) * (entry.play or size.shank / 2)


def _bore(one: Driven, entry: WoodScrew, size: Bores) -> None:
    wood = species(one.seat.lower.spec.wood)
    pilot = size.pilot_soft if wood is not None and wood.group == "softwood" else size.pilot_hard
    upper, lower = one.seat.upper, one.seat.lower
    down, up = turn(upper.back, one.seat.normal), turn(lower.back, one.seat.normal)
    tops = [apply(upper.back, head) for head in one.heads]
    mouths = [apply(lower.back, p) for p in one.points]
    play = None if one.play is None else turn(upper.back, one.play)
    tools: list[cq.Shape] = []
    for top in tops:
        tools += _opening(top, down, size.shank, one.depth + CLEAR, play)
        if one.sunk:
            tools += _opening(top, down, size.plug, one.sunk, play)
        elif play is None:
            tools.append(_countersink(top, down, size))
    upper.cut(tools, f"the screw holes in {upper.name}")
    lower.cut([bore(mouth, up, pilot, one.bite) for mouth in mouths], f"the pilot holes in {lower.name}")
    shared: dict[str, Value] = {"gauge": size.gauge, "count": len(one.points)}
    above: dict[str, Value] = {**shared, "diameter": size.shank, "plugged": entry.plugged, "head": size.head}
    above |= {"plug": size.plug, "for": lower.kind}
    above |= {"sunk": entry.sunk} if entry.sunk else {}
    if one.play is not None:
        above |= {"slotted": entry.slotted, "slot": size.shank + 2 * float(np.linalg.norm(one.play))}
    _note(upper, tops, -down, "screw hole", above, lower)
    _note(lower, mouths, -up, "pilot hole", {**shared, "diameter": pilot, "deep": one.bite, "for": upper.kind}, upper)


def _opening(top: Vector, down: Vector, diameter: float, deep: float, play: Vector | None) -> list[cq.Shape]:
    """A bored hole, or a slot with round ends."""
    if play is None:
        return [bore(top, down, diameter, deep)]
    far = float(np.linalg.norm(play))
    return [kernel.long_hole(top, down, play / far, 2 * far + diameter, diameter, deep, CLEAR)]


def _plain(one: Driven, entry: WoodScrew, size: Bores) -> cq.Shape:
    """Head, shank and core: the threads, which cut their own way, are left out."""
    head, shank, core = size.head / 2 - SLACK, size.diameter / 2 - SLACK, size.pilot_soft / 2 - SLACK
    if one.play is None and not one.sunk:
        profile = [(head, 0.0), (shank, head - shank)]
    else:
        high = min(size.head / 3, one.sunk) if one.sunk else size.head / 3
        if one.play is None:
            high = min(size.head / 2, one.depth - one.sunk, one.sunk)
        profile = [(head, one.sunk - high), (head, one.sunk), (shank, one.sunk)]
    profile += [(shank, one.depth), (core, one.depth), (core, one.depth + one.bite)]
    return kernel.turned(profile, "the screw")


def _countersink(top: Vector, down: Vector, size: Bores) -> cq.Solid:
    """A cone of 90 degrees, as wide as the head where it breaks the face."""
    wide = size.head / 2 + CLEAR
    return cq.Solid.makeCone(wide, 0.0, wide, kernel.vector(top - down * CLEAR), kernel.vector(down))


def _note(body: Body, centres: list[Vector], out: Vector, kind: str, values: dict[str, Value], other: Body) -> None:
    side = _opens_on(body, centres[0], out)
    if kind == "screw hole":
        values = values | bored_values(-out, side)
    first, *row = map(round_point, centres)
    callout = Callout(kind, dict(values), first, side, row=tuple(row))
    # pilots are bored through the clear holes when the parts lie together: they have no place of their own to set out
    sizes = centre_sizes(body, centres, side, kind) if kind == "screw hole" else ()
    body.features.append(Feature(kind, "fixing", sizes, (callout,), Operation(kind, dict(values)), other.name))


def _opens_on(body: Body, mouth: Vector, out: Vector) -> Side:
    """The side a hole is bored from: that on which its mouth lies, which a steep screw leaves by the nearer face."""
    there = [
        side
        for side in SIDES
        if abs(float(mouth[AXIS_NUMBER[SIDE_AXIS[side]]]) - body.blank.at(side)) < ON_SIDE
        and float(out @ side_vector(side)) > STEEPEST
    ]
    return max(there, key=lambda side: float(out @ side_vector(side)), default=nearest_side(out))
