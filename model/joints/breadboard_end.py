"""Breadboard ends: a tongue and its groove from one tool, pegged fast in the middle and loose outwards."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from model import kernel
from model.body import Body, extents_of
from model.brep import compound
from model.frames import apply, axis_vector, nearest_side, round_point, side_vector, turn
from model.joints.joining import Habits
from model.kernel import KernelFault
from model.pegging import bore_tenon, peg_across, pegs_in
from model.piece import Callout, Feature, JointMade, Operation, Size, Value
from model.recess import placed, recess_sizes
from model.tenon_seat import Seat, blind_stop, find_seats, long_edges, tool
from model.walls import needs_floor, needs_wall
from plans.joints.breadboard_end import BreadboardEnd
from plans.library import species
from plans.sides import AXIS_NUMBER, sides_of

CHANGE = 4.0  # per cent of moisture either way from the day it is made: 4 to 12 % indoors (common practice)
MOUTH = 0.5  # mm below the face, where the wall is measured


def join(bodies: dict[str, list[Body]], joint: BreadboardEnd, number: int, habits: Habits) -> list[JointMade]:
    """Every end of the panel that meets a board across it."""
    fit = habits.fit if joint.fit is None else joint.fit
    relief = habits.relief if joint.relief is None else joint.relief
    made = []
    for panel in bodies[joint.of]:
        shoulders = dict.fromkeys(sides_of(panel.wide), joint.set_back)
        for found in find_seats([panel], bodies[joint.into], joint.ends, joint.thick, shoulders):
            seat = replace(found, stop=blind_stop(found, joint.long))
            made.append(_join(seat, joint, number, fit, relief))
    return made


def _join(seat: Seat, joint: BreadboardEnd, number: int, fit: float, relief: float) -> JointMade:
    panel, board = seat.of, seat.into
    half = panel.blank.size(panel.wide) / 2
    play = _play(panel, half) if joint.play is None else joint.play
    groove = _groove(seat, joint, play)
    _needs_wood(groove, fit, relief, through=joint.set_back <= 0)
    pegs = joint.pegs
    middle = float((seat.low + seat.high)[AXIS_NUMBER[panel.wide]]) / 2
    held = pegs_in(seat, pegs, 0.0)
    off = [abs(float(peg.centre[AXIS_NUMBER[panel.wide]]) - middle) for peg in held]
    held = pegs_in(seat, pegs, 0.0, [2 * play * distance / half if distance > MOUTH else 0.0 for distance in off])
    loose = peg_across(seat, pegs, held, "breadboard peg")
    before = board.sharp
    board.cut([board.local(panel.world(tool(groove, fit, relief)))], f"the groove in {board.name} for {panel.name}")
    reach = extents_of(compound(kernel.less(before, board.sharp)))
    panel.add(tool(seat), f"the tongue of {panel.name}")
    _note_tongue(seat, joint)
    _note_groove(seat, reach.low, reach.high)
    bore_tenon(seat, pegs, held)
    way = round_point(panel.outward(seat.end))
    return JointMade("breadboard end", number, panel.name, board.name, seat.where, way, joint.long, False, tuple(loose))


def _play(panel: Body, half: float) -> float:
    """How far an edge moves: distance from the middle x coefficient x change of moisture (Wood Handbook, ch. 13)."""
    wood = species(panel.spec.wood)
    if wood is None:
        raise KernelFault(f"the table does not say how {panel.spec.wood} moves; say `play`")
    quarter = panel.spec.rings == "quarter"
    return half * (wood.coefficient_radial if quarter else wood.coefficient_tangential) * CHANGE


def _groove(seat: Seat, joint: BreadboardEnd, play: float) -> Seat:
    """Longer than the tongue by its play at each end, or from end to end of the board."""
    number = AXIS_NUMBER[seat.of.wide]
    low, high = seat.low.copy(), seat.high.copy()
    room = play if joint.set_back > 0 else seat.into.blank.size(seat.into.runs)
    low[number] -= room
    high[number] += room
    return replace(seat, low=low, high=high)


def _needs_wood(groove: Seat, fit: float, relief: float, *, through: bool) -> None:
    panel, board = groove.of, groove.into
    inward = turn(panel.at, groove.shoulder.normal)
    middle = np.array(groove.where)
    deep = groove.long + relief
    what = f"the groove for {panel.name}"
    needs_floor(board, what, [middle + inward * deep], inward)
    for axis in (panel.thick,) if through else (panel.thick, panel.wide):
        way = turn(panel.at, axis_vector(axis))
        half = groove.width(axis) / 2 + fit
        for sign in (-1.0, 1.0):
            points = [middle + way * sign * half + inward * at for at in (MOUTH, deep)]
            needs_wall(board, what, points, way * sign)


def _note_tongue(seat: Seat, joint: BreadboardEnd) -> None:
    body = seat.of
    corners = np.array(long_edges(seat))
    corner = corners[0]
    tip = corner + side_vector(seat.end) * (joint.long / abs(float(seat.shoulder.normal[AXIS_NUMBER[body.runs]])))
    face, edge = body.datum_side(body.thick), body.datum_side(body.wide)
    reach = abs(float((tip - corner)[AXIS_NUMBER[body.runs]]))
    low, high = seat.low.copy(), seat.high.copy()
    low[AXIS_NUMBER[body.runs]] = high[AXIS_NUMBER[body.runs]] = float(corner[AXIS_NUMBER[body.runs]])
    sizes = [
        Size("tongue length", reach, body.runs, round_point(corner), round_point(tip), face, "size"),
        *placed(body, low, high, body.thick, edge, "tongue thickness"),
    ]
    if joint.set_back > 0:
        sizes += placed(body, low, high, body.wide, face, "tongue width")
    values: dict[str, Value] = {
        "for": seat.into.kind,
        "thick": joint.thick,
        "wide": seat.width(body.wide),
        "long": joint.long,
        "end": seat.end,
    }
    # between two pegs, so that the words for them keep apart
    share = (joint.pegs.count // 2) / joint.pegs.count or 0.25
    first, last = corners[:2].mean(axis=0), corners[2:].mean(axis=0)
    point = round_point(first + (last - first) * share + (tip - corner) / 2)
    callout = Callout("tongue", dict(values), point, face)
    operation = Operation("tongue", dict(values))
    body.features.append(Feature("tongue", "joint", tuple(sizes), (callout,), operation, seat.into.name))


def _note_groove(seat: Seat, low: np.ndarray, high: np.ndarray) -> None:
    body = seat.into
    out = -turn(seat.into_frame, seat.shoulder.normal)
    side = nearest_side(out)
    size = high - low
    values: dict[str, Value] = {
        "for": seat.of.kind,
        "thick": float(size[AXIS_NUMBER[body.thick]]),
        "long": float(size[AXIS_NUMBER[body.runs]]),
        "deep": float(size @ np.abs(side_vector(side))),
        "side": side,
    }
    mouth = round_point(apply(seat.into_frame, np.mean(long_edges(seat), axis=0)))
    callout = Callout("end groove", dict(values), mouth, side, (round_point(low), round_point(high)))
    sizes = recess_sizes(body, low, high, side, "end groove")
    operation = Operation("end groove", dict(values))
    body.features.append(Feature("end groove", "joint", sizes, (callout,), operation, seat.of.name))
