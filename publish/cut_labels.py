"""Settings told at the cuts in a picture of one part: beside it or below it, whichever leaves the picture larger."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from publish.drawing.box import Box, Point, Segment, segments_cross
from publish.drawing.lettering import set_text, text_width, wrap
from publish.drawing.placed import PlacedView
from publish.drawing.records import Circle, Line, Record
from publish.drawing.style import BLACK
from publish.edition import Edition
from publish.pictures import RING, Cut, Pictorial, ringed, set_pictorial
from publish.words.setting_labels import FAR_SIDE, setting_lines

AIR = 2.0  # mm between a label and the picture, or another label
WIDEST = 0.42  # share of the room that labels beside a picture may take
NARROWEST = 20.0  # mm that a label below a picture may at least take
SLACK = 1e-6
LEAST = 9.0  # mm of height that are left to a picture
MOST = 6  # labels that are tried in every order
LEAD = 1.5  # from line to line, in the size of the letters
Side = Literal["beside", "below"]
WORTH: dict[Side, float] = {
    "beside": 1.0,
    "below": 1.2,
}  # leaders from below are shorter, for a part lies along the page


@dataclass(frozen=True)
class Told:
    """A label: its lines, the size of the box they fill (mm), and the cut it belongs to."""

    lines: tuple[str, ...]
    width: float
    height: float
    cut: Cut


@dataclass(frozen=True)
class Layout:
    """Labels on one side of a picture, and the room that leaves for it."""

    side: Side
    labels: tuple[Told, ...]
    room: Box


def set_worked(edition: Edition, picture: Pictorial, area: Box) -> list[Record]:
    """The picture in its area, each setting at its cut; the picture alone where nothing is set."""
    size = edition.style.lettering.small
    told = told_of(edition, picture)
    ways = [way for way in (beside(told, area, size), below(told, area, size)) if way is not None] if told else []
    if not ways:
        return set_pictorial(picture, area, edition.style)[0]
    layout = _drawn_together(max(ways, key=lambda way: _scale(picture, way.room) * WORTH[way.side]), picture, area)
    records, placed = set_pictorial(picture, layout.room, edition.style)
    rings = ringed(picture, placed)
    for label, box, leader in stands(layout, placed, area):
        records += _set(edition, label, box, leader, rings, size)
    return records


def least_height(edition: Edition, picture: Pictorial, width: float) -> float:
    """How high an area of a width has to be (mm) for the picture and all of its labels."""
    told = told_of(edition, picture)
    if not told:
        return LEAST
    area, size = Box(0.0, 0.0, width, math.inf), edition.style.lettering.small
    column, row = beside(told, area, size), below(told, area, size)
    heights = [max(LEAST, _column(column.labels))] if column is not None else []
    heights += [LEAST + 2 * AIR + max(one.height for one in row.labels)] if row is not None else []
    return min(heights)


def most_height(edition: Edition, picture: Pictorial, width: float) -> float:
    """How high an area of a width may be (mm) before the picture and its labels leave some of it empty."""
    told = told_of(edition, picture)
    whole = min(width / picture.box.width, 1.0) * picture.box.height
    row = below(told, Box(0.0, 0.0, width, math.inf), edition.style.lettering.small) if told else None
    return whole + (2 * AIR + max(one.height for one in row.labels) if row is not None else 0.0)


def told_of(edition: Edition, picture: Pictorial) -> dict[tuple[str, ...], Cut]:
    """What is said of each cut; cuts of which the same is said are told once, at one that is seen."""
    found: dict[tuple[str, ...], Cut] = {}
    for cut in picture.cuts:
        lines = setting_lines(edition, cut.settings)
        if lines and (lines not in found or (cut.seen and not found[lines].seen)):
            found[lines] = cut
    return {lines if cut.seen else (*lines, FAR_SIDE): cut for lines, cut in found.items()}


def _wrapped(told: dict[tuple[str, ...], Cut], width: float, size: float) -> tuple[Told, ...]:
    made = []
    for said, cut in told.items():
        lines = tuple(line for words in said for line in wrap(words, width, size, "regular"))
        wide = max(text_width(line, size, "regular") for line in lines)
        made.append(Told(lines, wide, len(lines) * LEAD * size, cut))
    return tuple(made)


def _column(labels: Sequence[Told]) -> float:
    return sum(one.height for one in labels) + AIR * (len(labels) - 1)


def _scale(picture: Pictorial, room: Box) -> float:
    return min(room.width / picture.box.width, room.height / picture.box.height)


def beside(told: dict[tuple[str, ...], Cut], area: Box, size: float) -> Layout | None:
    """A column of labels at the right; None where it is too high."""
    labels = _wrapped(told, area.width * WIDEST, size)
    if _column(labels) > area.height + SLACK:
        return None
    wide = max(one.width for one in labels)
    return Layout("beside", labels, Box(area.left, area.bottom, area.right - wide - 3 * AIR, area.top))


def below(told: dict[tuple[str, ...], Cut], area: Box, size: float) -> Layout | None:
    """A row of labels; None where it is too wide or too high."""
    each = (area.width - 2 * AIR * (len(told) - 1)) / len(told)
    labels = _wrapped(told, max(each, NARROWEST), size)
    wide = sum(one.width for one in labels) + 2 * AIR * (len(labels) - 1)
    high = max(one.height for one in labels)
    if wide > area.width + SLACK or high + 2 * AIR + LEAST > area.height + SLACK:
        return None
    return Layout("below", labels, Box(area.left, area.bottom + high + 2 * AIR, area.right, area.top))


def _drawn_together(layout: Layout, picture: Pictorial, area: Box) -> Layout:
    """The same with no more room than the picture takes, it and its labels in the middle of the area."""
    scale = min(_scale(picture, layout.room), 1.0)
    wide, high = picture.box.width * scale, picture.box.height * scale
    if layout.side == "below":
        spare = (layout.room.height - high) / 2
        top = area.top - spare
        return replace(layout, room=Box(area.left, top - high, area.right, top))
    spare = (layout.room.width - wide) / 2
    left = area.left + spare
    return replace(layout, room=Box(left, area.bottom, left + wide, area.top))


def stands(layout: Layout, placed: PlacedView, area: Box) -> list[tuple[Told, Box, Segment]]:
    """Each label with its box and its leader, in the order in which leaders cross least and are shortest."""
    ends = {id(label): placed.at(label.cut.at) for label in layout.labels}
    along = 1 if layout.side == "beside" else 0
    usual = sorted(layout.labels, key=lambda label: (-1) ** along * ends[id(label)][along])
    orders = itertools.permutations(usual) if len(usual) <= MOST else [tuple(usual)]
    tried = [
        [_stand(layout, label, at, ends[id(label)], area) for label, at in _spread(layout, order, ends, area)]
        for order in orders
    ]
    return min(tried, key=_cost)


def _spread(layout: Layout, order: Sequence[Told], ends: dict[int, Point], area: Box) -> list[tuple[Told, float]]:
    """Where along the column (down from the top) or the row (from the left) each label begins: near its cut."""
    down = layout.side == "beside"
    sizes = [label.height if down else label.width for label in order]
    gap = AIR if down else 2 * AIR
    wanted = [(area.top - ends[id(label)][1] if down else ends[id(label)][0] - area.left) for label in order]
    room = area.height if down else area.width
    places: list[float] = []
    for size, middle in zip(sizes, wanted, strict=True):
        first = places[-1] + sizes[len(places) - 1] + gap if places else 0.0
        places.append(max(first, middle - size / 2))
    last = room
    for n in reversed(range(len(places))):
        places[n] = max(0.0, min(places[n], last - sizes[n]))
        last = places[n] - gap
    return list(zip(order, places, strict=True))


def _stand(layout: Layout, label: Told, at: float, end: Point, area: Box) -> tuple[Told, Box, Segment]:
    if layout.side == "beside":
        left, top = layout.room.right + 2 * AIR, area.top - at
        box = Box(left, top - label.height, left + label.width, top)
        return label, box, Segment(left - 0.8, box.centre[1], *end)
    left, top = area.left + at, layout.room.bottom - AIR
    box = Box(left, top - label.height, left + label.width, top)
    return label, box, Segment(box.centre[0], top + 0.6, *end)


def _cost(made: Sequence[tuple[Told, Box, Segment]]) -> tuple[int, float]:
    lines = [line for _, _, line in made]
    return (
        sum(segments_cross(a, b) for a, b in itertools.combinations(lines, 2)),
        sum(math.dist((line.x0, line.y0), (line.x1, line.y1)) for line in lines),
    )


def _set(edition: Edition, label: Told, box: Box, leader: Segment, rings: Sequence[Point], size: float) -> list[Record]:
    """The words in their box, and the leader: to a dot on the cut, to the ring round it, or plain to what is behind."""
    records: list[Record] = []
    for n, line in enumerate(label.lines):
        baseline = box.top - (n + 0.5) * LEAD * size - 0.33 * size
        records += set_text(line, box.left, baseline, size)
    end = (leader.x1, leader.y1)
    ring = min(rings, key=lambda at: math.dist(at, end), default=None)
    if ring is not None and math.dist(ring, end) < RING:
        far = math.dist(ring, (leader.x0, leader.y0)) or 1.0
        end = (ring[0] + (leader.x0 - ring[0]) * RING / far, ring[1] + (leader.y0 - ring[1]) * RING / far)
    elif label.cut.seen:
        records.append(Circle(*end, edition.style.spacing.anchor_dot, fill=BLACK))
    records.append(Line(leader.x0, leader.y0, *end, edition.style.pens.leader))
    return records
