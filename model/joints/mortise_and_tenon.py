"""Mortise and tenon: one tool solid makes both halves, so they match by construction."""

from __future__ import annotations

from dataclasses import replace

import cadquery as cq
import numpy as np

from model.body import Body
from model.frames import Vector, apply, axis_vector, nearest_side, round_point, side_vector, turn
from model.joints.joining import Habits, end_plane
from model.kernel import KernelFault, Plane, spell
from model.pegging import bore_tenon, peg_across, pegs_in
from model.piece import Callout, Feature, JointMade, LoosePiece, Operation, Size, Value
from model.recess import placed
from model.tenon_seat import Seat, blind_stop, far_face, find_seats, inside_the_end, long_edges, tool
from model.walls import needs_floor, needs_wall
from model.wedging import flare, saw
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side

CLEAR = 1.0  # mm a through mortise is cut past the far face
MOUTH = 0.5  # mm below the face, where the wall at the mouth is measured
LEAST_HALF = 5.0  # mm each of a pair of tenons (common practice)
LEAST_LEAN = 0.25  # degrees: less is cut square
OVERLAP = 1.0  # mm a haunch reaches into its tenon, so that the two are one


def join(bodies: dict[str, list[Body]], joint: MortiseAndTenon, number: int, habits: Habits) -> list[JointMade]:
    """Find every end that meets the other kind, then cut all tenons and their mortises."""
    across = joint.thick if joint.twin is None else 2 * joint.thick + joint.twin
    seats = find_seats(bodies[joint.of], bodies[joint.into], joint.ends, across, joint.shoulders)
    return [_join(seat, joint, number, habits) for seat in seats]


def _join(seat: Seat, joint: MortiseAndTenon, number: int, habits: Habits) -> JointMade:
    """One end: what is left in the mortised part is judged before anything is cut."""
    fit = habits.fit if joint.fit is None else joint.fit
    relief = habits.relief if joint.relief is None else joint.relief
    face = far_face(seat) if joint.through else None
    seat = replace(seat, stop=_stop(seat, joint, face))
    tenons = _tenons(seat, joint)
    haunches = [_haunch(seat, tenon, joint) for tenon in tenons]
    for tenon in tenons:
        _needs_wood(tenon, fit, None if face is not None else relief, joint.proud or 0.0)
    cuts: list[cq.Shape] = [tool(tenon, fit, CLEAR if joint.through else relief) for tenon in tenons]
    cuts += [tool(haunch, fit, relief) for haunch in haunches if haunch is not None]
    if joint.wedges is not None and face is not None:
        deep = replace(seat, stop=face).long
        cuts += [widened for tenon in tenons for widened in flare(tenon, joint.wedges, fit, deep)]
    loose = _peg(seat, tenons, joint, habits)
    what = f"the mortise in {seat.into.name} for {seat.of.name}"
    seat.into.cut([seat.into.local(seat.of.world(cut)) for cut in cuts], what)
    for tenon, haunch in zip(tenons, haunches, strict=True):
        for stub in (tenon, haunch):
            if stub is not None:
                seat.of.add(tool(stub), f"the tenon of {seat.of.name}")
        seat.of.features.append(_tenon_feature(tenon, haunch, joint))
        seat.into.features.append(_mortise_feature(tenon, haunch, joint, relief))
    if joint.pegs is not None:
        for part in _across(seat, tenons):
            bore_tenon(part, joint.pegs, pegs_in(part, joint.pegs, _draw(joint, habits)))
    if joint.wedges is not None:
        loose += [saw(tenon, joint.wedges) for tenon in tenons]
    way = round_point(seat.of.outward(seat.end))
    names = (seat.of.name, seat.into.name)
    return JointMade("mortise and tenon", number, *names, seat.where, way, seat.long, True, tuple(loose))


def _stop(seat: Seat, joint: MortiseAndTenon, face: Plane | None) -> Plane:
    if face is not None:
        return Plane(face.point + face.normal * (joint.proud or 0.0), face.normal)
    assert joint.long is not None, "the reader asks for the length of a blind tenon"
    return blind_stop(seat, joint.long)


def _tenons(seat: Seat, joint: MortiseAndTenon) -> list[Seat]:
    """The one tenon, or those that `twin` and `split` make of it."""
    tenons = [seat]
    for axis, gap in ((seat.of.thick, joint.twin), (seat.of.wide, joint.split)):
        if gap is not None:
            tenons = [half for tenon in tenons for half in _halves(tenon, axis, gap)]
    return tenons


def _halves(seat: Seat, axis: Axis, gap: float) -> list[Seat]:
    number = AXIS_NUMBER[axis]
    middle = float(seat.low[number] + seat.high[number]) / 2
    if seat.width(axis) - gap < 2 * LEAST_HALF:
        raise KernelFault(
            f"the gap leaves two tenons {spell((seat.width(axis) - gap) / 2)} wide on {seat.of.name}; "
            f"at least {spell(LEAST_HALF)} is wanted"
        )
    first, second = seat.high.copy(), seat.low.copy()
    first[number], second[number] = middle - gap / 2, middle + gap / 2
    return [replace(seat, high=first), replace(seat, low=second)]


def _across(seat: Seat, tenons: list[Seat]) -> list[Seat]:
    """The tenons as pegs meet them: one peg goes through both of a twin pair."""
    number = AXIS_NUMBER[seat.of.thick]
    whole: dict[float, Seat] = {}
    for tenon in tenons:
        low, high = tenon.low.copy(), tenon.high.copy()
        low[number], high[number] = seat.low[number], seat.high[number]
        whole[float(low[AXIS_NUMBER[seat.of.wide]])] = replace(tenon, low=low, high=high)
    return list(whole.values())


def _draw(joint: MortiseAndTenon, habits: Habits) -> float:
    assert joint.pegs is not None
    return habits.draw if joint.pegs.offset is None else joint.pegs.offset


def _peg(seat: Seat, tenons: list[Seat], joint: MortiseAndTenon, habits: Habits) -> list[LoosePiece]:
    if joint.pegs is None:
        return []
    return [
        piece
        for part in _across(seat, tenons)
        for piece in peg_across(part, joint.pegs, pegs_in(part, joint.pegs, _draw(joint, habits)))
    ]


def _haunch(seat: Seat, tenon: Seat, joint: MortiseAndTenon) -> Seat | None:
    """The stub that fills the shoulder beside a tenon; none beside an inner one of a split pair."""
    for side, long in joint.haunch.items():
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        low, high = tenon.low.copy(), tenon.high.copy()
        edge = seat.of.blank.at(side)
        if SIDE_SIGN[side] > 0 and high[number] == seat.high[number]:
            low[number], high[number] = high[number] - OVERLAP, edge
        elif SIDE_SIGN[side] < 0 and low[number] == seat.low[number]:
            low[number], high[number] = edge, low[number] + OVERLAP
        else:
            continue
        closing = end_plane(seat.of, seat.end)
        assert closing is not None
        inside_the_end(seat.of, seat.of.local(closing[0]), low, high)
        return replace(tenon, low=low, high=high, stop=blind_stop(seat, long))
    return None


def _needs_wood(seat: Seat, fit: float, relief: float | None, proud: float) -> None:
    """Wood enough beside the mortise, and under it where it is blind (`relief` deeper than the tenon)."""
    across = turn(seat.of.at, axis_vector(seat.of.thick))
    inward = turn(seat.of.at, seat.shoulder.normal)
    corners = [apply(seat.of.at, edge) for edge in long_edges(seat)]
    what = f"the mortise for {seat.of.name}"
    deep = seat.long - proud - MOUTH if relief is None else seat.long + relief
    if relief is not None:
        needs_floor(seat.into, what, [np.mean(corners, axis=0) + inward * deep], inward)
    for sign, outer in ((-1.0, corners[0::2]), (1.0, corners[1::2])):
        points = [corner + inward * at + across * sign * fit for corner in outer for at in (MOUTH, deep)]
        needs_wall(seat.into, what, points, across * sign)


def _tenon_feature(seat: Seat, haunch: Seat | None, joint: MortiseAndTenon) -> Feature:
    body = seat.of
    number = AXIS_NUMBER[body.runs]
    corners = np.array(long_edges(seat))
    corner = corners[int(np.argmax(side_vector(seat.end)[number] * corners[:, number]))]
    tip = corner - side_vector(seat.end) * (seat.stop.height(corner) / float(seat.stop.normal @ side_vector(seat.end)))
    face, edge = body.datum_side(body.thick), body.datum_side(body.wide)
    low, high = seat.low.copy(), seat.high.copy()
    low[number] = high[number] = float(corner[number])
    reach = abs(float(tip[number] - corner[number]))
    sizes = [
        Size("tenon length", reach, body.runs, round_point(corner), round_point(tip), face, "size"),
        *placed(body, low, high, body.wide, face, "tenon width"),
        *placed(body, low, high, body.thick, edge, "tenon thickness"),
    ]
    values: dict[str, Value] = {
        "for": seat.into.kind,
        "thick": joint.thick,
        "wide": seat.width(body.wide),
        "long": seat.long,
        "end": seat.end,
    }
    if haunch is not None:
        values |= {"haunch": haunch.long, "haunch side": next(iter(joint.haunch))}
        sizes.append(_haunch_size(haunch, face))
    middle = (corners.mean(axis=0) + tip - corner).tolist()
    callout = Callout("tenon", dict(values), (middle[0], middle[1], middle[2]), face)
    return Feature("tenon", "joint", tuple(sizes), (callout,), Operation("tenon", dict(values)), seat.into.name)


def _haunch_size(haunch: Seat, face: Side) -> Size:
    """How far the haunch reaches along the part, at its outer edge."""
    body, run = haunch.of, side_vector(haunch.end)
    foot = min(
        long_edges(haunch),
        key=lambda p: -abs(float(p[AXIS_NUMBER[body.wide]] - body.blank.middle()[AXIS_NUMBER[body.wide]])),
    )
    tip = foot - run * (haunch.stop.height(foot) / float(haunch.stop.normal @ run))
    reach = abs(float((tip - foot) @ run))
    return Size("haunch length", reach, body.runs, round_point(foot), round_point(tip), face, "size")


def _mortise_feature(seat: Seat, haunch: Seat | None, joint: MortiseAndTenon, relief: float) -> Feature:
    """Set out from the datum end to the nearest corner of the mouth, and from the true side to its nearest corner."""
    body, of = seat.into, seat.of
    to_local = seat.into_frame
    mouth = np.array([apply(to_local, p) for p in long_edges(seat)])
    outward = -turn(to_local, seat.shoulder.normal)
    side, inward = nearest_side(outward), turn(to_local, side_vector(seat.end))
    off_square = _off_square(inward, outward)
    turned = turn(to_local, axis_vector(of.wide))
    lengthwise = abs(float(turned[AXIS_NUMBER[body.runs]])) > 0.7
    values: dict[str, Value] = {
        "for": of.kind,
        "thick": joint.thick,
        "wide": seat.width(of.wide),
        "deep": None if joint.through else seat.long + relief,
        "side": side,
        "turned": _turned(turned if lengthwise else turn(to_local, axis_vector(of.thick)), body.runs, outward),
        "off square": off_square,
    }
    if off_square >= LEAST_LEAN:
        values |= {"towards": nearest_side(inward - outward * float(inward @ outward))}
    sizes = _mouth_sizes(body, mouth, side)
    if haunch is not None:
        values |= {"haunch": haunch.long + relief}
        ends = np.array([apply(to_local, p) for p in long_edges(_beyond(seat, haunch))])
        sizes += placed(body, ends.min(axis=0), ends.max(axis=0), body.runs, side, "haunch mortise")[:1]
    if joint.wedges is not None:
        values |= {"flare": joint.wedges.flare}
    fills = round_point(mouth.min(axis=0)), round_point(mouth.max(axis=0))
    callout = Callout("mortise", dict(values), round_point(mouth.mean(axis=0)), side, fills)
    operation = Operation("mortise", dict(values))
    return Feature("mortise", "joint", tuple(sizes), (callout,), operation, of.name)


def _beyond(tenon: Seat, haunch: Seat) -> Seat:
    """The haunch without what it shares with its tenon."""
    number = AXIS_NUMBER[tenon.of.wide]
    low, high = haunch.low.copy(), haunch.high.copy()
    if high[number] > tenon.high[number]:
        low[number] = tenon.high[number]
    else:
        high[number] = tenon.low[number]
    return replace(haunch, low=low, high=high)


def _mouth_sizes(body: Body, mouth: Vector, side: Side) -> list[Size]:
    low, high = mouth.min(axis=0), mouth.max(axis=0)
    return [
        *placed(body, low, high, body.runs, side, "mortise"),
        *placed(body, low, high, _beside(body, side), side, "mortise"),
    ]


def _beside(body: Body, side: Side) -> Axis:
    if SIDE_AXIS[side] == body.runs:
        return body.wide
    return body.thick if SIDE_AXIS[side] == body.wide else body.wide


def _turned(direction: Vector, along: Axis, face: Vector) -> float:
    """How far the mouth of a mortise is turned, on its face, out of line with the part (degrees)."""
    run = axis_vector(along)
    flat = direction - face * float(direction @ face)
    line = run - face * float(run @ face)
    cosine = abs(float(flat @ line)) / float(np.linalg.norm(flat) * np.linalg.norm(line))
    return float(np.degrees(np.arccos(min(1.0, cosine))))


def _off_square(inward: Vector, face: Vector) -> float:
    """How far the way in leans from square to the face (degrees)."""
    return float(np.degrees(np.arccos(min(1.0, abs(float(inward @ face))))))
