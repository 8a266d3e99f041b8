"""All the places a callout or an angle could take."""

from __future__ import annotations

import math
from itertools import compress, pairwise

import numpy as np

from publish.drawing.box import Box, Point, Segment
from publish.drawing.lettering import Run, set_runs, text_height
from publish.drawing.placement import Arc, Ground, Placement, TextLine, allowed, crossings
from publish.drawing.records import Record, box_of
from publish.drawing.segments import Floats, meet, stacked
from publish.drawing.style import GREY, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT
from publish.drawing.wishes import AngleWish, CalloutWish

_WAYS = 24
_ANGLES = 2 * np.pi * (np.arange(_WAYS) + 0.5) / _WAYS
_DISTANCES = np.arange(8.0, 93.0, 4.0)  # mm
_KEEP_A_WAY = 6
_LENGTH_COST = 0.3
_CROSSING_COST = 2.0
_OTHER_POINT_COST = 1.0
_SQUARE_COST = 3.0
_INSIDE_COST = 6.0
_CLEAR_INSIDE = 2.5


def _note_lines(wish: CalloutWish, style: HouseStyle) -> list[tuple[Run, float]]:
    """The lines as runs, each with its baseline below the first one's, mm."""
    size = style.lettering.callout
    runs = [Run(line, size, "semibold" if n == 0 else "regular") for n, line in enumerate(wish.lines)]
    runs += [Run(line, size * style.lettering.also_scale, "regular", GREY) for line in wish.also]
    placed: list[tuple[Run, float]] = []
    down, last = 0.0, 0.0
    for run in runs:
        half = text_height(run.string, run.size) / 2
        if placed:
            down += max(last + half + 1.0, run.size * 1.22)
        placed.append((run, down))
        last = half
    return placed


def _note_box(lines: list[tuple[Run, float]]) -> tuple[Box, float]:
    """The ink of the note with its first baseline at (0, 0), and the first line's half height of capitals."""
    inks: list[Record] = [r for run, down in lines for r in set_runs([run], 0.0, -down)]
    return box_of(inks), CAP_HEIGHT * lines[0][0].size / 2


def callout_places(wish: CalloutWish, ground: Ground, style: HouseStyle) -> list[Placement]:
    """Places for a note round its points, cheapest first: a straight leader at some slant, a landing, the text."""
    lines = _note_lines(wish, style)
    found = _about(wish, wish.point, lines, ground, style, 0.0)
    for point in wish.others:
        found += _about(wish, point, lines, ground, style, _OTHER_POINT_COST)
    return sorted(found, key=lambda place: place.cost)


def _about(
    wish: CalloutWish, point: Point, lines: list[tuple[Run, float]], ground: Ground, style: HouseStyle, base: float
) -> list[Placement]:
    """The places about one point, `base` added to what each costs."""
    ink, middle = _note_box(lines)
    angle, distance = (a.reshape(-1) for a in np.meshgrid(_ANGLES, _DISTANCES, indexing="ij"))
    leaders = _leaders(ground.views[wish.view].at(point), angle, distance, style.spacing.leader_landing)
    landing, end, gap = leaders[0, :, 1], leaders[2, :, 1], style.spacing.text_gap
    left = np.where(end > landing, end + gap, end - gap - ink.right)
    baseline = leaders[3, :, 1] - middle
    text = np.stack([ink.left + left, ink.bottom + baseline, ink.right + left, ink.top + baseline])
    inside = meet(text, stacked([ground.views[wish.view].box.grown(1.0)]))
    clearance = np.where(inside, _CLEAR_INSIDE, style.spacing.text_clearance)
    good = allowed(text, leaders, wish.view, ground, clearance, inside_own=True).reshape(_WAYS, -1)
    kept = np.flatnonzero(good & (good.cumsum(axis=1) <= _KEEP_A_WAY))
    square = np.minimum(np.abs(np.cos(angle[kept])), np.abs(np.sin(angle[kept]))) < 0.3
    costs = base + _LENGTH_COST * distance[kept] + _SQUARE_COST * square + _INSIDE_COST * inside[kept]
    costs += _CROSSING_COST * crossings(leaders[:, kept, 0], wish.view, ground)
    at = np.column_stack([left[kept], baseline[kept], costs]).tolist()
    segments = leaders[:, kept].transpose(1, 2, 0).tolist()
    return [_callout(wish, lines, ink, x, y, cost, pair) for (x, y, cost), pair in zip(at, segments, strict=True)]


def _leaders(tip: Point, angle: Floats, distance: Floats, landing: float) -> Floats:
    """4 x n x 2: from the tip to an elbow, each at an angle and a distance, and on along the page."""
    x, y = tip[0] + distance * np.cos(angle), tip[1] + distance * np.sin(angle)
    end = x + np.where(x >= tip[0], landing, -landing)
    slant = np.stack([np.full_like(x, tip[0]), np.full_like(y, tip[1]), x, y])
    return np.stack([slant, np.stack([x, y, end, y])], axis=2)


def _callout(
    wish: CalloutWish,
    lines: list[tuple[Run, float]],
    ink: Box,
    left: float,
    baseline: float,
    cost: float,
    leader: list[list[float]],
) -> Placement:
    slant, landing = (Segment(*ends) for ends in leader)
    return Placement(
        wish,
        ink.moved(left, baseline),
        tuple(TextLine((run,), left, baseline - down, "left") for run, down in lines),
        cost,
        leader=(slant, landing),
        heads=(((slant.x0, slant.y0), (slant.x1, slant.y1)),),
    )


def angle_places(wish: AngleWish, ground: Ground, style: HouseStyle) -> list[Placement]:
    """Places for an angle: arcs of several radii, the value outside the arc at its middle or past one end."""
    view = ground.views[wish.view]
    vertex = view.at(wish.vertex)
    start, end = math.radians(wish.start), math.radians(wish.end)
    size = style.lettering.dimension
    ink = box_of(set_runs([Run(wish.text, size, "semibold")], 0.0, -CAP_HEIGHT * size / 2, "centre"))
    found: list[Placement] = []
    for n, radius in enumerate((12.0, 16.0, 20.0, 25.0, 30.0, 36.0)):
        past = 8.0 / radius
        for cost, angle in ((0.0, (start + end) / 2), (1.0, end + past), (1.2, start - past)):
            found.append(_angle(wish, vertex, (start, end), radius, angle, ink, style, n * 1.5 + cost))
    lines = stacked([s for c in found for s in c.lines]).reshape(4, len(found), -1)
    text = stacked([c.text for c in found])
    good = allowed(text, lines, wish.view, ground, style.spacing.text_clearance, inside_own=True)
    return sorted(compress(found, good), key=lambda c: c.cost)


def _angle(
    wish: AngleWish,
    vertex: tuple[float, float],
    span: tuple[float, float],
    radius: float,
    at: float,
    ink: Box,
    style: HouseStyle,
    cost: float,
) -> Placement:
    start, end = span
    x, y = vertex
    half = abs(math.cos(at)) * ink.width / 2 + abs(math.sin(at)) * ink.height / 2
    away = radius + (half + style.spacing.text_gap if start <= at <= end else 0.0)
    text_x, text_y = x + away * math.cos(at), y + away * math.sin(at)
    outside = radius * (end - start) < style.spacing.arrows_outside_below
    tail = style.spacing.arrow_tail / radius if outside else 0.0
    arc = Arc(vertex, radius, start - tail, end + tail)
    rays = tuple(
        Segment(
            x + style.spacing.extension_gap * math.cos(a),
            y + style.spacing.extension_gap * math.sin(a),
            x + (radius + style.spacing.extension_overshoot) * math.cos(a),
            y + (radius + style.spacing.extension_overshoot) * math.sin(a),
        )
        for a in span
    )
    baseline = text_y - CAP_HEIGHT * style.lettering.dimension / 2
    run = Run(wish.text, style.lettering.dimension, "semibold")
    return Placement(
        wish,
        ink.moved(text_x, text_y),
        (TextLine((run,), text_x, baseline, "centre"),),
        cost,
        strokes=_chords(arc),
        extensions=rays,
        heads=_arc_heads(vertex, radius, span, outside),
        arcs=(arc,),
    )


def _chords(arc: Arc) -> tuple[Segment, ...]:
    count = 10
    angles = [arc.start + n * (arc.end - arc.start) / count for n in range(count + 1)]
    points = [(arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a)) for a in angles]
    return tuple(Segment(*p, *q) for p, q in pairwise(points))


def _arc_heads(
    vertex: tuple[float, float], radius: float, span: tuple[float, float], outside: bool
) -> tuple[tuple[tuple[float, float], tuple[float, float]], ...]:
    heads = []
    for a, turn in ((span[0], 1.0), (span[1], -1.0)):
        way = -turn if outside else turn
        tip = vertex[0] + radius * math.cos(a), vertex[1] + radius * math.sin(a)
        heads.append((tip, (tip[0] - way * math.sin(a), tip[1] + way * math.cos(a))))
    return tuple(heads)
