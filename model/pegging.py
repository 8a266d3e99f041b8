"""Holes for round pegs across a tenon or a tongue, each half with its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import Vector, apply, axis_vector, nearest_side, round_point, side_vector, turn
from model.kernel import KernelFault, spell
from model.loose_bodies import standing_rod
from model.piece import Callout, Feature, LoosePiece, Operation, Size, Value
from model.shaping.hole import CLEAR, bore, centre_sizes
from model.tenon_seat import Seat, on_shoulder
from model.walls import FLOOR, last_wood
from plans.pegs import Pegs
from plans.sides import AXIS_NUMBER, Side

RELISH = 1.0  # diameters of wood left between a peg and the end of its tenon, or the shoulder (common practice)


@dataclass(frozen=True)
class Peg:
    """One peg (standing frame of the tenoned part): where its axis crosses the middle of the tenon, and its slot."""

    centre: Vector
    nearer: float  # mm its hole in the tenon lies nearer the shoulder
    slot: float  # mm its hole in the tenon is longer than wide, across the width


def pegs_in(seat: Seat, pegs: Pegs, nearer: float, slots: Sequence[float] = ()) -> list[Peg]:
    """The pegs of one tenon, evenly over its width; `slots` says how long the hole of each is drawn out."""
    wide = AXIS_NUMBER[seat.of.wide]
    low, high = float(seat.low[wide]), float(seat.high[wide])
    middle = float((seat.low + seat.high)[AXIS_NUMBER[seat.of.thick]] / 2)
    run = side_vector(seat.end)
    in_by = run * (pegs.set_in / float(seat.shoulder.normal @ run))
    return [
        Peg(
            on_shoulder(seat, low + (high - low) * (i + 0.5) / pegs.count, middle) + in_by,
            nearer,
            slots[i] if slots else 0.0,
        )
        for i in range(pegs.count)
    ]


def peg_across(seat: Seat, pegs: Pegs, made: list[Peg], what: str = "peg") -> list[LoosePiece]:
    """Bore the mortised part for every peg, and say what is needed; `bore_tenon` does the tenon, once it stands."""
    into = seat.into
    _needs_relish(seat, pegs)
    out = turn(seat.of.at, side_vector(_driven_from(seat, pegs)))
    inward = turn(into.back, -out)
    mouths, heads, reach = [], [], 0.0
    for peg in made:
        centre = apply(seat.of.at, peg.centre)
        above, below = last_wood(into, centre, out), last_wood(into, centre, -out)
        if min(above, below) <= 0:
            raise KernelFault(f"a peg misses {into.name}; change `set in` or the number of pegs")
        if pegs.deep is not None and above + below - pegs.deep < FLOOR:
            left = above + below - pegs.deep
            raise KernelFault(f"the peg hole leaves {spell(left)} of wood under it; at least {spell(FLOOR)} is wanted")
        heads.append(centre + out * above)
        mouths.append(apply(into.back, heads[-1]))
        reach = max(reach, above + below)
    deep = reach + CLEAR if pegs.deep is None else pegs.deep
    tools = [bore(mouth, inward, pegs.diameter, deep) for mouth in mouths]
    into.cut(tools, f"the peg holes in {into.name}")
    values: dict[str, Value] = {"diameter": pegs.diameter, "deep": pegs.deep, "count": len(mouths), "for": seat.of.kind}
    side = nearest_side(-inward)
    sizes = centre_sizes(into, mouths, side, "peg hole")
    _note(into, mouths, side, values, sizes, seat.of)
    long = reach if pegs.deep is None else pegs.deep
    values = {"diameter": pegs.diameter, "long": long, "wood": into.spec.wood}
    bodies = tuple(standing_rod(head, -out * long, pegs.diameter) for head in heads)
    return [LoosePiece(what, len(made), values, bodies)]


def _driven_from(seat: Seat, pegs: Pegs) -> Side:
    """The side that is said, else the one a maker works from: the top of what lies flat."""
    if pegs.driven_from is not None:
        return pegs.driven_from
    return "top" if seat.of.thick == "up-down" else seat.of.datum_side(seat.of.thick)


def bore_tenon(seat: Seat, pegs: Pegs, made: list[Peg]) -> None:
    """Bore the tenon for its pegs."""
    body = seat.of
    run, thick, wide = side_vector(seat.end), axis_vector(body.thick), axis_vector(body.wide)
    half = seat.width(body.thick) / 2 + CLEAR
    centres: list[Vector] = []
    tools: list[cq.Shape] = []
    for peg in made:
        centre = peg.centre - run * (peg.nearer / float(seat.shoulder.normal @ run))
        centres.append(centre)
        start = centre - thick * half
        if peg.slot:
            long = pegs.diameter + peg.slot
            tools.append(kernel.long_hole(start, thick, wide, long, pegs.diameter, 2 * half, 0.0))
        else:
            tools.append(cq.Solid.makeCylinder(pegs.diameter / 2, 2 * half, kernel.vector(start), kernel.vector(thick)))
    body.cut(tools, f"the peg holes in the tenon of {body.name}")
    _note_tenon(seat, pegs, made, centres, _driven_from(seat, pegs))


def _note_tenon(seat: Seat, pegs: Pegs, made: list[Peg], centres: list[Vector], side: Side) -> None:
    """One note for all holes that are alike: round ones, and slots by their length."""
    body = seat.of
    foot = on_shoulder(seat, *(float(centres[0][AXIS_NUMBER[axis]]) for axis in (body.wide, body.thick)))
    number = AXIS_NUMBER[body.runs]
    from_shoulder = Size(
        "peg hole from shoulder",
        abs(float(centres[0][number] - foot[number])),
        body.runs,
        round_point(foot),
        round_point(centres[0]),
        side,
        "position",
    )
    across = [size for size in centre_sizes(body, centres, side, "peg hole") if size.along == body.wide]
    for length in sorted({peg.slot for peg in made}):
        alike = [centre for centre, peg in zip(centres, made, strict=True) if peg.slot == length]
        values: dict[str, Value] = {
            "diameter": pegs.diameter,
            "deep": None,
            "count": len(alike),
            "nearer": made[0].nearer,
            "slot": length + pegs.diameter if length else 0.0,
        }
        sizes = (from_shoulder, *across) if length == min(peg.slot for peg in made) else ()
        _note(body, alike, side, values, sizes, seat.into)


def _note(
    body: Body, centres: list[Vector], side: Side, values: dict[str, Value], sizes: tuple[Size, ...], other: Body
) -> None:
    first, *row = map(round_point, centres)
    callout = Callout("peg hole", dict(values), first, side, row=tuple(row))
    operation = Operation("peg hole", dict(values))
    body.features.append(Feature("peg hole", "joint", sizes, (callout,), operation, other.name))


def _needs_relish(seat: Seat, pegs: Pegs) -> None:
    least = RELISH * pegs.diameter
    for left, where in (
        (seat.long - pegs.set_in - pegs.diameter / 2, "between it and the end of the tenon"),
        (pegs.set_in - pegs.diameter / 2, "between it and the shoulder"),
    ):
        if left < least - 0.01:
            raise KernelFault(f"the peg leaves {spell(left)} of wood {where}; at least {spell(least)} is wanted")
    room = seat.width(seat.of.wide) / pegs.count - pegs.diameter
    if room < least - 0.01:
        raise KernelFault(f"the pegs leave {spell(room)} of tenon beside each; at least {spell(least)} is wanted")
