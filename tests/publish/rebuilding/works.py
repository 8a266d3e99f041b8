"""How each kind of work is done, by the words of its callout alone; in the order of the bench."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

import numpy as np
from manifold3d import Manifold
from rebuilding.part import (
    FAR,
    PAST,
    Corner,
    NotTold,
    Said,
    Stub,
    Work,
    box,
    cylinder,
    furthest,
    inside_of,
    outside_of,
    prism,
    tangent,
)
from rebuilding.records import Spot, Target

FIT = 0.5  # mm over all that a recess may be drawn larger than what goes in
FLATTEST = 60.0  # degrees off square
SAW = 1.0  # mm, the kerf of the saw at hand
DISC = 100.0  # mm, the cutter of a biscuit joiner (trade standard, from memory)
L = r"([\d. ⁄]+?)"  # a length as printed
STEPS = 240  # of a long arc


# ---------------------------------------------------------------- outlines


def sloping_end(work: Work, feature: int, said: Said) -> None:
    """Note how an end leans; it is cut when its tenons are known."""
    runs, wide, thick = work.sheet.runs, work.sheet.wide, work.sheet.thick
    for target in said.targets:
        sign = target.places[0][runs].half
        lean = {}
        for other, words in ((wide, r"([\d.]+)° across the face"), (thick, r"([\d.]+)° through the thickness")):
            if found := said.find(words):
                way = work.sheet.leans.get((runs, sign, other))
                if way is None:
                    raise NotTold(f"no view shows which way {said.lines} leans")
                lean[other] = way * tangent(found[1])
        work.leaning[runs, sign] = lean


def sloping_edge(work: Work, feature: int, said: Said) -> None:
    """An edge planed to a bevel along the whole part."""
    side, angle = said.read(r"(\w+) EDGE bevell?ed ([\d.]+)°").groups()
    axis, sign = SIDES[side.lower()]
    other = next(n for n in (work.sheet.wide, work.sheet.thick) if n != axis)
    way = work.sheet.leans.get((axis, sign, other))
    if way is None:
        raise NotTold(f"no view shows which way {said.lines} leans")
    lean = {other: way * tangent(angle)}
    point = furthest([0.0] * 3, list(work.full), axis, sign, lean)
    point[axis] = work.full[axis] if sign > 0 else 0.0
    work.solid = inside_of(work.solid, axis, sign, point, lean)


SIDES = {"left": (0, -1), "right": (0, 1), "front": (1, -1), "back": (1, 1), "bottom": (2, -1), "top": (2, 1)}


def taper(work: Work, feature: int, said: Said) -> None:
    """Planes from the line where they begin to what is left at the far end."""
    runs = work.sheet.runs
    sides = [SIDES[word] for word in re.findall(r"left|right|front|back|top|bottom", said.lines[0])]
    start = SIDES[said.read(r"from the (\w+)")[1]]
    begins = work.spans(feature, runs, "taper begins")[0]
    within = {begins.start, begins.end}.difference(_at_ends(work, runs))
    far, near = (0.0, work.full[runs]) if start[1] > 0 else (work.full[runs], 0.0)
    line = work.place(runs, within.pop()) if within else near  # it may begin at the end itself
    for axis, sign in sides:
        foot = work.size(work.spans(feature, axis, "foot")[0])
        off = work.full[axis] - foot
        if (axis, -sign) in sides:
            off /= 2
        point = [0.0] * 3
        point[runs], point[axis] = line, work.full[axis] if sign > 0 else 0.0
        work.solid = inside_of(work.solid, axis, sign, point, {runs: -sign * off / (far - line)})
        work.sloping[axis, sign] = (line, far, off)


def _at_ends(work: Work, axis: int) -> set[int]:
    return {rank for rank, place in work.at[axis].items() if place < 1e-6 or place > work.full[axis] - 1e-6}


def arc(work: Work, feature: int, said: Said) -> None:
    """Hollow: through the rise in the middle and the flats at the ends."""
    if "hollow" not in said.lines[0]:
        raise NotTold("a crown is not made here yet")
    (rise,) = work.spans(feature, None, "rise")
    runs, axis = work.sheet.runs, rise.axis
    a, b = work.place(axis, rise.start), work.place(axis, rise.end)
    sign = 1 if b < a else -1
    flats = work.spans(feature, runs, "flat")
    ends = _shoulder_ends(work)
    places = sorted(work.place(runs, r) for f in flats for r in (f.start, f.end)) or [*ends]
    first, last = (places[1], places[2]) if flats else (places[0], places[-1])
    high = abs(b - a)
    half = (last - first) / 2
    radius = (half**2 + high**2) / (2 * high)
    middle = (first + last) / 2
    edge = work.full[axis] if sign > 0 else 0.0
    line = []
    for n in range(STEPS + 1):
        x = first + (last - first) * n / STEPS
        line.append((x, edge - sign * (high - radius + math.sqrt(max(0.0, radius**2 - (x - middle) ** 2)))))
    outline = [*line, (last, edge + sign * PAST), (first, edge + sign * PAST)]
    if not flats:
        outline = [
            *line,
            (last + PAST, edge),
            (last + PAST, edge + sign * PAST),
            (first - PAST, edge + sign * PAST),
            (first - PAST, edge),
        ]
    work.cut(prism((runs, axis), outline, -PAST, work.full[3 - runs - axis] + PAST))


def _shoulder_ends(work: Work) -> tuple[float, float]:
    runs = work.sheet.runs
    roots = {stub.sign: stub.root for stub in work.stubs if stub.axis == runs}
    return roots.get(-1, 0.0), roots.get(1, work.full[runs])


def relief(work: Work, feature: int, said: Said) -> None:
    """Tapered or cranked ends."""
    runs = work.sheet.runs
    rises = work.spans(feature, None, "end relief")
    axis = rises[0].axis
    a, b = work.place(axis, rises[0].start), work.place(axis, rises[0].end)
    sign, rise = (1 if b < a else -1), abs(b - a)
    edge = work.full[axis] if sign > 0 else 0.0
    longs = [s for s in work.spans(feature, runs) if s.name == "relief"]
    levels = work.spans(feature, runs, "level")
    for long in longs:
        start, end = work.place(runs, long.start), work.place(runs, long.end)
        way = 1 if end > start else -1
        level = next((s for s in levels if s.start == long.start), None)
        if level is None:
            begin = (start - way * PAST, edge - sign * rise * (1 + PAST / abs(end - start)))
            outline = [begin, (end, edge), (end, edge + sign * PAST), (start - way * PAST, edge + sign * PAST)]
        else:
            flat = work.place(runs, level.end)
            outline = [
                (start - way * PAST, edge - sign * rise),
                (flat, edge - sign * rise),
                (end, edge),
                (end, edge + sign * PAST),
                (start - way * PAST, edge + sign * PAST),
            ]
        work.cut(prism((runs, axis), outline, -PAST, work.full[3 - runs - axis] + PAST))


def cove(work: Work, feature: int, said: Said) -> None:
    """A quarter of a circle about an arris."""
    radius = work.length(said.read(rf"COVE, radius {L}$")[1])
    for pair in re.findall(r"(top|bottom|left|right|front|back) (top|bottom|left|right|front|back)", said.lines[1]):
        (a, a_sign), (b, b_sign) = (SIDES[side] for side in pair)
        centre = [0.0] * 3
        centre[a], centre[b] = work.full[a] * (a_sign > 0), work.full[b] * (b_sign > 0)
        along = 3 - a - b
        work.cut(cylinder(along, centre, -PAST, work.full[along] + PAST, radius))


# ---------------------------------------------------------------- what stands past a shoulder


def stub(work: Work, feature: int, said: Said) -> None:
    """A tenon or a tongue: its box, from shoulder to tip."""
    lengths = [s for s in work.spans(feature) if s.name.endswith(" length") and "haunch" not in s.name]
    lengths += [s for s in work.spans(feature) if s.name.endswith(" reach")]
    for length in lengths:
        axis = length.axis
        root, tip = work.place(axis, length.start), work.place(axis, length.end)
        low, high = work.box_of(feature)
        for other in range(3):
            if other != axis and any(s.axis == other and s.name.endswith(" reach") for s in lengths):
                low[other], high[other] = -PAST, work.full[other] + PAST
        work.stubs.append(Stub(axis, 1 if tip > root else -1, root, tip, low, high))
    for haunch in work.spans(feature, None, "haunch length"):
        side, sign = SIDES[said.read(r"haunch .* long at the (\w+)")[1]]
        tenon = work.stubs[-1]
        low, high = list(tenon.low), list(tenon.high)
        if sign > 0:
            low[side], high[side] = tenon.high[side] - PAST / 2, work.full[side] + PAST
        else:
            low[side], high[side] = -PAST, tenon.low[side] + PAST / 2
        root, tip = work.place(haunch.axis, haunch.start), work.place(haunch.axis, haunch.end)
        work.stubs.append(Stub(haunch.axis, 1 if tip > root else -1, root, tip, low, high))


def shoulders(work: Work) -> None:
    """Saw every end and edge to its line, and leave the tenons."""
    sawn = {(stub.axis, stub.sign) for stub in work.stubs} | set(work.leaning)
    kept: list[Manifold] = []
    whole = work.solid
    for axis, sign in sorted(sawn):
        lean = work.leaning.get((axis, sign), {})
        here = [stub for stub in work.stubs if (stub.axis, stub.sign) == (axis, sign)]
        if not here:
            point = furthest([0.0] * 3, list(work.full), axis, sign, lean)
            point[axis] = work.full[axis] if sign > 0 else 0.0
        else:
            point = furthest(here[0].low, here[0].high, axis, sign, lean)
            point[axis] = here[0].root
        for one in here:
            tip = list(furthest(one.low, one.high, axis, sign, lean))
            tip[axis] = one.tip
            low, high = list(one.low), list(one.high)
            low[axis], high[axis] = -FAR, FAR
            behind = list(point)
            behind[axis] -= sign * PAST  # the two are one piece of wood
            left = inside_of(outside_of(box(low, high), axis, sign, behind, lean), axis, sign, tip, lean)
            kept.append(left ^ whole)
        work.solid = inside_of(work.solid, axis, sign, point, lean)
    for left in kept:
        work.solid += left
    long_corners(work)


def long_corners(work: Work) -> None:
    """The long corner of a leaning shoulder, from which places are measured, follows from its angle."""
    runs = work.sheet.runs
    for (axis, sign), lean in work.leaning.items():
        here = [stub for stub in work.stubs if (stub.axis, stub.sign) == (axis, sign)]
        if not here or axis != runs:
            continue
        near = furthest(here[0].low, here[0].high, axis, sign, lean)
        far = furthest([0.0] * 3, list(work.full), axis, sign, lean)
        out = here[0].root + sum(rise * (far[other] - near[other]) for other, rise in lean.items())
        root = _rank_at(work, runs, here[0].root)
        tip = _rank_at(work, runs, here[0].tip)
        low, high = sorted((root, tip))
        missing = {
            rank
            for d in work.sheet.dimensions
            for s in d.spans
            if s.axis == runs
            for rank in (s.start, s.end)
            if low < rank < high and rank not in work.at[runs]
        }
        for rank in missing:
            work.at[runs][rank] = out
    moved = True
    while moved:
        moved = False
        for d in work.sheet.dimensions:
            for s in d.spans:
                if s.axis != runs or d.text.startswith("Ø"):
                    continue
                for here_, there in ((s.start, s.end), (s.end, s.start)):
                    if here_ in work.at[runs] and there not in work.at[runs]:
                        work.at[runs][there] = work.at[runs][here_] + work.size(s) * (1 if there > here_ else -1)
                        moved = True


def _rank_at(work: Work, axis: int, place: float) -> int:
    return next(rank for rank, at in work.at[axis].items() if abs(at - place) < 1e-9)


# ---------------------------------------------------------------- what is sunk


def sunk_box(work: Work, feature: int, said: Said) -> None:
    """What lies between the lines of its sizes, right through where there are none."""
    if said.find(r"off square"):
        raise NotTold("walls that lean are not cut here yet")
    work.cut(box(*work.opened(*work.box_of(feature))))


def channel(work: Work, feature: int, said: Said) -> None:
    """What lies between the lines of its sizes; as deep as its words say where no line shows it."""
    if said.find(r"off square"):
        raise NotTold("walls that lean are not cut here yet")
    low, high = work.box_of(feature)
    (target,) = {(t.axis, t.sign) for t in said.targets}
    axis, sign = target
    if not [s for s in work.spans(feature, axis) if "position" not in s.name]:
        low[axis], high[axis] = _down(work, axis, sign, work.length(said.read(rf"{L} deep")[1]), low, high)
    work.cut(box(*work.opened(low, high)))


def _down(work: Work, axis: int, sign: int, deep: float, low: Corner, high: Corner) -> tuple[float, float]:
    runs = work.sheet.runs
    face = work.surface(axis, sign, (max(low[runs], 0) + min(high[runs], work.full[runs])) / 2)
    return (face - deep, face + PAST) if sign > 0 else (face - PAST, face + deep)


def mortise(work: Work, feature: int, said: Said) -> None:
    """A block let in from its side, or right through."""
    if said.find(r"off square|turned"):
        leaning_mortise(work, feature, said)
        return
    for target in said.targets:
        low, high = work.box_of(feature)
        axis, sign = target.axis, target.sign
        haunches = work.spans(feature, None, "haunch mortise")
        for haunch in haunches:
            low[haunch.axis], high[haunch.axis] = _between(work, feature, haunch.axis, "mortise size", "haunch")
        beside = [n for n in range(3) if n != axis]
        by_words = sorted(work.length(text) for text in said.read(rf"^{L} × {L}, ").groups())
        for by_lines, size in zip(sorted(high[n] - low[n] for n in beside), by_words, strict=True):
            _as_said(work, said, by_lines, size)
        if said.find("right through"):
            low[axis], high[axis] = -PAST, work.full[axis] + PAST
        else:
            low[axis], high[axis] = _down(work, axis, sign, work.length(said.read(rf", {L} deep")[1]), low, high)
        work.cut(box(*work.opened(low, high)))
        for haunch in haunches:
            deep = work.length(said.read(rf"haunch {L} deep")[1])
            at = sorted((work.place(haunch.axis, haunch.start), work.place(haunch.axis, haunch.end)))
            less, more = list(low), list(high)
            less[haunch.axis], more[haunch.axis] = at
            if at[0] < PAST:
                more[haunch.axis] += PAST / 2
            else:
                less[haunch.axis] -= PAST / 2
            less[axis], more[axis] = _down(work, axis, sign, deep, less, more)
            work.cut(box(*work.opened(less, more)))
        if found := said.find(rf"flared {L} at each end on the far side"):
            _flare(work, low, high, axis, sign, work.length(found[1]))


def leaning_mortise(work: Work, feature: int, said: Said) -> None:
    """Let in at an angle along its length, its mouth turned on the face; as deep as is said, square to the face."""
    runs = work.sheet.runs
    thick, wide = (work.length(t) for t in said.read(rf"^{L} × {L}, ").groups())
    turned = said.find(r"turned ([\d.]+)°")
    for target in said.targets:
        axis, sign = target.axis, target.sign
        beside = 3 - axis - runs
        low, high = work.box_of(feature)
        main = runs if high[runs] - low[runs] > high[beside] - low[beside] else beside
        minor = 3 - axis - main
        along, aside = [0.0] * 3, [0.0] * 3
        angle = 0.0 if turned is None else math.radians(float(turned[1]))
        if turned is not None:
            angle *= _way(work, feature, main, minor, said)
        along[main], along[minor] = math.cos(angle), math.sin(angle)
        aside[main], aside[minor] = -math.sin(angle), math.cos(angle)
        tilt = work.tilt(axis, sign, (low[runs] + high[runs]) / 2)
        lean, ahead = _lean(said, runs, tilt)
        way = along if ahead == main else aside
        longer = 1 / math.cos(math.atan(lean - (tilt if ahead == runs else 0.0)))
        half_long = wide / 2 * (longer if ahead == main else 1.0)
        half_short = thick / 2 * (longer if ahead != main else 1.0)
        _as_said(
            work, said, high[main] - low[main], 2 * (half_long * math.cos(angle) + half_short * abs(math.sin(angle)))
        )
        _as_said(
            work, said, high[minor] - low[minor], 2 * (half_short * math.cos(angle) + half_long * abs(math.sin(angle)))
        )
        deep = work.length(said.read(rf", {L} deep")[1]) * math.hypot(1.0, tilt)
        face = work.surface(axis, sign, (low[runs] + high[runs]) / 2)
        points = []
        for level in (-PAST, deep):
            for u in (-half_long, half_long):
                for v in (-half_short, half_short):
                    point = [(low[n] + high[n]) / 2 + along[n] * u + aside[n] * v for n in range(3)]
                    # the floor lies as the face does
                    mouth = face + sign * tilt * (point[runs] - (low[runs] + high[runs]) / 2)
                    gone = level / (1 + tilt * (lean if ahead == runs else 0.0))
                    point = [point[n] + way[n] * lean * gone for n in range(3)]
                    point[axis] = mouth - sign * gone
                    points.append(point)
        work.cut(Manifold.hull_points(points))


def _lean(said: Said, runs: int, tilt: float) -> tuple[float, int]:
    """How far it goes for each mm inwards, on a face that is tilted itself along the part, and along which axis."""
    found = said.find(r"([\d.]+)° off square, in towards? the (\w+)")
    if found is None:
        return tilt, runs
    axis, way = SIDES[found[2]]
    return math.tan(math.atan(tilt if axis == runs else 0.0) + way * math.radians(float(found[1]))), axis


def _way(work: Work, feature: int, axis: int, other: int, said: Said) -> int:
    way = work.sheet.walls.get((feature, axis, other))
    if way is None:
        raise NotTold(f"no view shows which way {said.lines} leans")
    return way


def _as_said(work: Work, said: Said, by_lines: float, by_words: float) -> None:
    """The lines about a recess and its words have to agree: within a step and the room for the fit."""
    if abs(by_lines - by_words) > work.step + FIT:
        raise NotTold(f"{said.lines} lies between lines {by_lines:.1f} apart")


def _flare(work: Work, low: Corner, high: Corner, axis: int, sign: int, flare: float) -> None:
    along = max((n for n in range(3) if n != axis), key=lambda n: high[n] - low[n])
    near, far = (work.full[axis], 0.0) if sign > 0 else (0.0, work.full[axis])
    outline = [
        (low[along], near),
        (low[along] - flare, far),
        (high[along] + flare, far),
        (high[along], near),
    ]
    third = 3 - axis - along
    work.cut(prism((along, axis), outline, low[third], high[third]))


def _between(work: Work, feature: int, axis: int, named: str, but: str) -> tuple[float, float]:
    ranks = [r for s in work.spans(feature, axis, named) if but not in s.name for r in (s.start, s.end)]
    return work.place(axis, min(ranks)), work.place(axis, max(ranks))


def recess(work: Work, feature: int, said: Said) -> None:
    """With corners square or to a radius."""
    found = said.find(rf"corners to radius {L}$")
    if not found:
        channel(work, feature, said)
        return
    radius = work.length(found[1])
    (target,) = said.targets
    low, high = work.box_of(feature)
    low[target.axis], high[target.axis] = _down(
        work, target.axis, target.sign, work.length(said.read(rf"{L} deep")[1]), low, high
    )
    a, b = (n for n in range(3) if n != target.axis)
    for thinner in (a, b):
        less, more = list(low), list(high)
        less[thinner] += radius
        more[thinner] -= radius
        work.cut(box(less, more))
    for x in (low[a] + radius, high[a] - radius):
        for y in (low[b] + radius, high[b] - radius):
            centre = [0.0] * 3
            centre[a], centre[b] = x, y
            work.cut(cylinder(target.axis, centre, low[target.axis], high[target.axis], radius))


def round_slot(work: Work, feature: int, said: Said) -> None:
    """An opening with half-round ends about its middle, right through."""
    (target,) = said.targets
    (long,), (wide,) = work.spans(feature, None, " length"), work.spans(feature, None, " width")
    centre = centre_of(work, target.places[0], target.axis)
    if not said.find("right through"):
        raise NotTold("blind slots are not cut here yet")
    far = work.full[target.axis] + PAST
    work.cut(_long_hole(centre, target.axis, -PAST, far, long.axis, work.size(long), work.size(wide)))


def _long_hole(centre: Corner, axis: int, start: float, end: float, along: int, long: float, wide: float) -> Manifold:
    third = 3 - axis - along
    low, high = list(centre), list(centre)
    low[along] -= (long - wide) / 2
    high[along] += (long - wide) / 2
    low[third] -= wide / 2
    high[third] += wide / 2
    low[axis], high[axis] = min(start, end), max(start, end)
    tool = box(low, high)
    for at in (low[along], high[along]):
        point = list(centre)
        point[along] = at
        tool += cylinder(axis, point, start, end, wide / 2)
    return tool


def centre_of(work: Work, place: tuple[Spot, Spot, Spot], axis: int) -> Corner:
    """The middle of a bore: on a line each way."""
    return [0.0 if n == axis else work.place(n, place[n].rank) for n in range(3)]


def bored(work: Work, feature: int, said: Said) -> None:
    """Holes of every kind, with what widens their mouths."""
    across = work.length(said.read(rf"^{L} (?:\w+ )?(?:HOLE|SLOT)")[1])
    deep = said.find(rf"HOLE, {L} deep") or next(
        (f for line in said.lines[1:] if (f := re.search(rf"^{L} deep$", line))), None
    )
    for target in said.targets:
        for spot in target.places:
            centre = centre_of(work, spot, target.axis)
            _bore(work, centre, target, across, None if deep is None else work.length(deep[1]), said)


def _bore(work: Work, centre: Corner, target: Target, across: float, deep: float | None, said: Said) -> None:
    axis, sign = target.axis, target.sign
    face = work.reached(axis, sign, centre)
    out = face + sign * PAST
    bottom = face - sign * (2 * work.full[axis] if deep is None else deep)
    slot = said.find(rf"slotted to {L} (\S+-\S+)$")
    along = -1 if slot is None else {"left-right": 0, "front-back": 1, "up-down": 2}[slot[2]]
    off = said.find(r"([\d.]+)° off square, in towards? the (\w+)$")
    if off is not None and float(off[1]) > FLATTEST:
        raise NotTold("bored too flat for its mouth to be measured")

    def cut(tool: Manifold) -> None:
        work.cut(tool if off is None else _tilted(tool, centre, axis, sign, face, float(off[1]), SIDES[off[2]]))

    def opening(diameter: float, to: float) -> None:
        if slot is None:
            cut(cylinder(axis, centre, out, to, diameter / 2))
        else:
            longer = work.length(slot[1]) - across
            cut(_long_hole(centre, axis, out, to, along, diameter + longer, diameter))

    opening(across, bottom)
    if found := said.find(rf"^{L} plug hole, {L} deep"):
        opening(work.length(found[1]), face - sign * work.length(found[2]))
    elif found := said.find(rf"^sunk {L} deep at {L}$"):
        opening(work.length(found[2]), face - sign * work.length(found[1]))
    elif found := said.find(rf"^countersunk to {L}$"):
        wide = work.length(found[1]) / 2
        cut(cylinder(axis, centre, face + sign * PAST, face - sign * wide, wide + PAST, 0.0))


def _tilted(
    tool: Manifold, centre: Corner, axis: int, sign: int, face: float, off: float, towards: tuple[int, int]
) -> Manifold:
    """A tool turned about the middle of its mouth, so that it goes in towards a side."""
    mouth = list(centre)
    mouth[axis] = face
    other, way = towards
    inward, aside = np.zeros(3), np.zeros(3)
    inward[axis], aside[other] = -sign, way
    cos, sin = math.cos(math.radians(off)), math.sin(math.radians(off))
    third = np.cross(inward, aside)
    before = np.array([inward, aside, third]).T
    after = np.array([inward * cos + aside * sin, aside * cos - inward * sin, third]).T
    turn = np.hstack([after @ before.T, np.zeros((3, 1))])
    return tool.translate([-at for at in mouth]).transform(turn).translate(mouth)


def peg_slot(work: Work, feature: int, said: Said) -> None:
    """A slot across a tongue for a peg."""
    across, long = (work.length(t) for t in said.read(rf"^{L} × {L} SLOT for a peg").groups())
    for target in said.targets:
        for spot in target.places:
            centre = centre_of(work, spot, target.axis)
            far = work.full[target.axis] + PAST
            work.cut(_long_hole(centre, target.axis, -PAST, far, work.sheet.wide, long, across))


def biscuit(work: Work, feature: int, said: Said) -> None:
    """The disc of a biscuit joiner, its plane along the part."""
    wide, deep = (work.length(t) for t in said.read(rf"{L} wide, {L} deep").groups())
    runs = work.sheet.runs
    for target in said.targets:
        along = runs if target.axis != runs else work.sheet.wide
        flat = 3 - target.axis - along
        for spot in target.places:
            centre = centre_of(work, spot, target.axis)
            face = work.full[target.axis] if target.sign > 0 else 0.0
            centre[target.axis] = face + target.sign * (DISC / 2 - deep)
            at = centre[flat]
            work.cut(cylinder(flat, centre, at - wide / 2, at + wide / 2, DISC / 2))


def saw_cut(work: Work, feature: int, said: Said) -> None:
    """A kerf in the end of a tenon, in its length, right through its thickness."""
    deep = work.length(said.read(rf"{L} deep")[1])
    runs, wide = work.sheet.runs, work.sheet.wide
    for target in said.targets:
        for spot in target.places:
            sign = spot[runs].half
            at = work.place(wide, spot[wide].rank)
            low, high = [-PAST] * 3, [size + PAST for size in work.full]
            low[wide], high[wide] = at - SAW / 2, at + SAW / 2
            if sign > 0:
                low[runs] = work.full[runs] - deep
            else:
                high[runs] = deep
            work.cut(box(low, high))


def fingers(work: Work, feature: int, said: Said) -> None:
    """Equal fingers and gaps across an end."""
    count = int(said.read(r"(\d+) equal fingers and gaps")[1])
    first = said.read(r"begin with a (\w+) at the true edge")[1]
    lengths = work.spans(feature, work.sheet.runs, "finger length")
    (width,) = work.spans(feature, work.sheet.wide, "finger width")
    wide = work.full[work.sheet.wide] / count
    from_low = work.place(work.sheet.wide, min(width.start, width.end)) < 1e-6
    for length in lengths:
        low, high = [-PAST] * 3, [size + PAST for size in work.full]
        a, b = (work.place(work.sheet.runs, r) for r in sorted((length.start, length.end)))
        low[work.sheet.runs], high[work.sheet.runs] = a, b
        for n in range(count):
            if (n % 2 == 0) == (first == "gap"):
                start = n * wide if from_low else work.full[work.sheet.wide] - (n + 1) * wide
                low[work.sheet.wide], high[work.sheet.wide] = start, start + wide
                work.cut(box(*work.opened(low, high)))


def tails(work: Work, feature: int, said: Said) -> None:
    """Waste between tails across the end of a board."""
    count = int((said.find(r"^(\d+) DOVETAILS") or ["", "1"])[1])
    rise, run = said.read(r"(\d+):(\d+)").groups()
    runs, wide, thick = work.sheet.runs, work.sheet.wide, work.sheet.thick
    (length,) = work.spans(feature, runs, "tail length")
    (tail,) = work.spans(feature, wide, "tail width")
    (half,) = work.spans(feature, wide, "half pin")
    between = work.length(said.read(rf"{L} between them")[1]) if count > 1 else 0.0
    a, b = work.place(runs, length.start), work.place(runs, length.end)
    start, end = work.place(wide, tail.start), work.place(wide, tail.end)
    size, way = abs(end - start), 1 if end > start else -1
    pin = abs(work.place(wide, half.end) - work.place(wide, half.start))
    narrower = abs(b - a) * int(rise) / int(run)
    out = a + (a - b) / abs(a - b) * PAST
    wider = PAST * int(rise) / int(run)
    edges = [start - way * pin]
    for n in range(count):
        at = start + way * n * (size + between)
        edges += [at, at + way * size]
    edges.append(edges[-1] + way * pin)
    for n in range(0, len(edges), 2):
        left, right = edges[n], edges[n + 1]
        first, last = n == 0, n == len(edges) - 2
        outline = [
            (out, left if first else left + way * wider),
            (b, left if first else left - way * narrower),
            (b, right if last else right + way * narrower),
            (out, right if last else right - way * wider),
        ]
        if first and (left < 1e-6 or left > work.full[wide] - 1e-6):
            outline[0], outline[1] = (out, left - way * PAST), (b, left - way * PAST)
        if last and (right < 1e-6 or right > work.full[wide] - 1e-6):
            outline[2], outline[3] = (b, right + way * PAST), (out, right + way * PAST)
        work.cut(prism((runs, wide), outline, -PAST, work.full[thick] + PAST))


def dovetail_housing(work: Work, feature: int, said: Said) -> None:
    """A channel wider at its floor, across the part."""
    neck, wide, deep = (
        work.length(t) for t in said.read(rf"{L} wide at the face, {L} at the floor, {L} deep").groups()
    )
    runs = work.sheet.runs
    low, high = work.box_of(feature)
    (target,) = said.targets
    axis, sign = target.axis, target.sign
    middle = (low[runs] + high[runs]) / 2
    face = work.full[axis] if sign > 0 else 0.0
    steep = (wide - neck) / 2 / deep * PAST
    outline = [
        (middle - neck / 2 + steep, face + sign * PAST),
        (middle - wide / 2, face - sign * deep),
        (middle + wide / 2, face - sign * deep),
        (middle + neck / 2 - steep, face + sign * PAST),
    ]
    work.cut(prism((runs, axis), outline, -PAST, work.full[3 - runs - axis] + PAST))


def dovetail_tongue(work: Work, feature: int, said: Said) -> None:
    """A tongue, then its two cheeks pared to the slope."""
    stub(work, feature, said)
    neck, wide = (work.length(t) for t in said.read(rf"{L} thick at the shoulder, {L} at the end").groups())
    left = work.stubs[-1]
    axis, thick = left.axis, work.sheet.thick
    middle = (left.low[thick] + left.high[thick]) / 2
    for side in (-1, 1):
        outline = [
            (left.root, middle + side * neck / 2),
            (left.tip, middle + side * wide / 2),
            (left.tip, middle + side * wide),
            (left.root, middle + side * wide),
        ]
        work.later.append(prism((axis, thick), outline, -PAST, work.full[3 - axis - thick] + PAST))


def nothing(work: Work, feature: int, said: Said) -> None:
    """Said for another reason than to cut: how far a whole end goes in."""


def _not_here(reason: str) -> Callable[[Work, int, Said], None]:
    def refuse(work: Work, feature: int, said: Said) -> None:
        raise NotTold(reason)

    return refuse


Maker = Callable[[Work, int, Said], None]
OUTLINE, SHOULDER, RUN, SUNK, LAST = range(5)
WORKS: tuple[tuple[str, int, Maker], ...] = (
    (r"^END at an angle", OUTLINE, sloping_end),
    (r"EDGE bevell?ed", OUTLINE, sloping_edge),
    (r"^TAPER ", OUTLINE, taper),
    (r"^(TAPERED|CRANKED) END", RUN, relief),
    (r"^ARC,", RUN, arc),
    (r"^COVE", OUTLINE, cove),
    (r"^TENON", SHOULDER, stub),
    (r"^TONGUE", SHOULDER, stub),
    (r"^EDGE IN GROOVES", SHOULDER, stub),
    (r"^DOVETAIL into .*", SHOULDER, dovetail_tongue),
    (r"^DOVETAIL HOUSING", SUNK, dovetail_housing),
    (r"^\d+ DOVETAILS", SUNK, tails),
    (r"^END let into", LAST, nothing),
    (r"^LET INTO RABBETS", LAST, nothing),
    (r"^BOX JOINT", SUNK, fingers),
    (r"^MORTISE", SUNK, mortise),
    (r"^(GROOVE|RABBET|HOUSING|RECESS for)", SUNK, channel),
    (r"^(NOTCH|HALVING|CHEEK|SLOT for)", SUNK, sunk_box),
    (r"^RECESS$", SUNK, recess),
    (r"^(SLOT, round ends|HAND HOLD)", SUNK, round_slot),
    (r" SLOT for a peg", LAST, peg_slot),
    (r" PEG HOLE", LAST, bored),
    (r"BISCUIT SLOT", SUNK, biscuit),
    (r"^SAW CUT", LAST, saw_cut),
    (r" PILOT,", LAST, _not_here("bored through another part")),
    (r" HOLE", LAST, bored),
    (r"^PINS", LAST, _not_here("marked from the tails")),
    (r"scribed to", LAST, _not_here("scribed to its neighbour")),
    (r"^FAIR CURVE", LAST, _not_here("a batten is bent through points")),
    (r"^TURNED", LAST, _not_here("turned to a template")),
    (r"KEY SLOT", LAST, _not_here("sawn when the corner is glued")),
    (r"^SPLINE SLOT", LAST, _not_here("a slot across a mitre")),
    (r"^THUMBNAIL", LAST, _not_here("a moulding")),
)
