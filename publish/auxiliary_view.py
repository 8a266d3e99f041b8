"""An aslant face of a part seen square on, in what room its sheet has left: an arrow on a view, the face, its sizes.

Only the face and what is cut into it is drawn, not the part behind it: a partial auxiliary view, set where there is
room and named by the letter of its arrow (ISO 128-3, arrow layout; from memory). Like a section it comes last, and
stands only where all sizes find their place beside it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product
from typing import Literal

import numpy as np

from model.aslant_faces import AslantFace, aslant_faces
from model.loops import Stretch
from model.piece import Part
from publish.drawing.added import Added, added
from publish.drawing.box import Box, Point, around
from publish.drawing.dimensioning import Layout, place
from publish.drawing.lettering import set_text, text_width
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.room import room_near
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.strokes import bounds, tidy
from publish.drawing.view import Arc, Axes, Line, Shape, Stroke, View
from publish.drawing.view_arrow import view_arrow
from publish.drawing.wishes import DimensionWish, Measured, Role
from publish.edition import Edition
from publish.part_views import DrawnPart
from publish.words.sections import view_title

LETTERS = "VW"  # beyond those of details and sections; the first that is not the mark of the part
AIRS = ((16.0, 15.0), (14.0, 10.5))  # mm round the face, for its sizes; less where there is no more
TITLE = 6.0  # mm over it
CLEAR = 1.0  # mm round the arrow
LARGEST = 2.0  # times real
ON_EDGE = 0.1  # cosine: a view that sees the face on edge, as nearly as an arrow needs
SAME = 0.05  # mm
ALONG = "aslant"  # the way of a size that lies along no axis of the part


def auxiliary_view(
    edition: Edition, mark: str, part: Part, drawn: DrawnPart, drawing: PartDrawing, taken: Sequence[Box]
) -> Added | None:
    """None where nothing wants it, or the sheet has no room for it: everything else has to find its place again."""
    face = next(aslant_faces(part), None)
    if face is None:
        return None
    letter = view_letter(mark)
    arrow = _arrow(edition, face, drawn, drawing, letter)
    if arrow is None:
        return None
    here = around(record.box for record in arrow).grown(CLEAR)
    titles = [seat.title_box(edition.style) for seat in drawing.details]
    views = [view.box.grown(3.0) for view in drawing.views]
    if any(here.meets(box) for box in (*taken, *titles)) or not edition.drawing_area.holds(here):
        return None
    found = _seated(
        edition, face, letter, [*taken, *views, *titles, *drawing.layout.boxes(), here], here, drawing.scale
    )
    if found is None:
        return None
    room, records = found
    return added(drawing, (*arrow, *records), (room, here), edition.drawing_area, (*taken, *titles), edition.style)


def view_letter(mark: str) -> str:
    """What the view of an aslant face of a part is called."""
    return next(letter for letter in LETTERS if letter != mark)


def face_view(face: AslantFace) -> View:
    """The face as it is seen square on."""
    strokes = tidy(
        Stroke("visible", _shape(stretch)) for loop in face.loops for stretch in loop.stretches if stretch.chord > 1e-6
    )
    lie = face.lie
    axes = Axes(*(tuple(way.tolist()) for way in (lie.right, lie.up, lie.towards)))
    return View(axes, strokes, bounds(strokes))


def _shape(stretch: Stretch) -> Shape:
    if not stretch.is_round:
        return Line(stretch.start, stretch.end)
    (x, y), turned = stretch.centre, stretch.sweep
    first = stretch.start if turned > 0 else stretch.end
    start = math.atan2(first[1] - y, first[0] - x)
    return Arc((x, y), stretch.radius, start, start + abs(turned))


def face_sizes(edition: Edition, face: AslantFace, key: str) -> list[DimensionWish]:
    """How long the face is the way it is foreshortened, and where on it things lie: from its nearer edge."""
    left, bottom, right, top = face.bounds
    first = face.openings[0].feature
    wished = [_size(edition, face, key, first, "face length", "h", (left, right), bottom, "overall")]
    for opening in face.openings:
        x0, y0, x1, y1 = opening.bounds
        ways: tuple[tuple[Literal["h", "v"], float, float, float, float, float], ...] = (
            ("h", left, right, x0, x1, y1),
            ("v", bottom, top, y0, y1, x1),
        )
        for axis, (direction, low, high, near, far, across) in enumerate(ways):
            if face.runs_through(opening, axis):
                continue
            edge, begins = (low, near) if near - low <= high - far else (high, far)
            if abs(begins - edge) > SAME:
                name, ends = f"{opening.what} position", (edge, begins)
                wished.append(_size(edition, face, key, opening.feature, name, direction, ends, across, "position"))
            if face.runs_through(opening, 1 - axis):
                continue  # as wide as its callout says
            name, ends = f"{opening.what} size", (near, far)
            wished.append(_size(edition, face, key, opening.feature, name, direction, ends, across, "size"))
    return wished


def _size(
    edition: Edition,
    face: AslantFace,
    key: str,
    feature: int,
    name: str,
    direction: Literal["h", "v"],
    ends: tuple[float, float],
    across: float,
    role: Role,
) -> DimensionWish:
    p0, p1 = ((end, across) if direction == "h" else (across, end) for end in ends)
    measured = Measured(feature, name, ALONG, face.point(*p0), face.point(*p1))
    text = edition.number(abs(ends[1] - ends[0]))
    return DimensionWish(key, p0, p1, direction, text, role, group=f"{feature} {name}", measures=(measured,))


def _seated(
    edition: Edition, face: AslantFace, letter: str, obstacles: Sequence[Box], arrow: Box, least: Scale
) -> tuple[Box, list[Record]] | None:
    """The face at the largest scale, that of the views at the least, at which it finds room with its sizes."""
    seen = face_view(face)
    scales = [one for one in STANDARD if least.factor <= one.factor <= max(LARGEST, least.factor)]
    size = edition.style.lettering.callout
    for scale, (beside, over) in product(scales, AIRS):
        k = scale.factor
        title = f"{view_title(letter)} ({scale.name})"
        wide = max(seen.box.width * k + 2 * beside, text_width(title, size, "bold"))
        high = seen.box.height * k + 2 * over + TITLE
        room = room_near(edition.drawing_area, wide, high, obstacles, arrow.centre)
        if room is None:
            continue
        x = room.centre[0] - seen.box.centre[0] * k
        y = room.bottom + over - seen.box.bottom * k
        placed = PlacedView("auxiliary", seen, x, y, k)
        layout = _laid_out(edition, face, placed, room)
        if not layout.unplaced:
            heading = set_text(title, room.centre[0], room.top - size, size, "bold", "centre")
            return room, [*placed.records(edition.style.pens), *layout.records(), *heading]
    return None


def _laid_out(edition: Edition, face: AslantFace, placed: PlacedView, room: Box) -> Layout:
    below_title = Box(room.left, room.bottom, room.right, room.top - TITLE)
    return place(face_sizes(edition, face, placed.key), [placed], below_title, (), edition.style)


def _arrow(
    edition: Edition, face: AslantFace, drawn: DrawnPart, drawing: PartDrawing, letter: str
) -> list[Record] | None:
    """The arrow on the view that sees the face on edge; None where none does, or it cannot be found there."""
    left, bottom, right, top = face.bounds
    middle = (left + right) / 2, (bottom + top) / 2
    for placed in (view for view in drawing.views if view.key in ("face", "edge", "end")):
        whole = drawn.view_of(placed.key)
        if abs(float(np.array(whole.axes.towards) @ face.lie.towards)) > ON_EDGE:
            continue
        edge = [whole.at(face.point(x, middle[1])) for x in (left, right)]
        if math.dist(*edge) < SAME:  # seen along the other way of the face
            edge = [whole.at(face.point(middle[0], y)) for y in (bottom, top)]
        shift = _moved(whole, placed.view, edge)
        if shift is None:
            continue
        way = -whole.at(face.lie.towards)[0], -whole.at(face.lie.towards)[1]
        x, y = whole.at(face.point(*middle))
        return view_arrow(placed.at((x + shift, y)), way, letter, edition.style)
    return None


def _moved(whole: View, shown: View, edge: Sequence[Point]) -> float | None:
    """How far along the page an edge lies from where it was before the view was broken; None where it is not found."""
    strokes = [stroke for stroke in shown.strokes if stroke.kind == "visible"]
    there = bounds(strokes)
    ends = [end for s in strokes if isinstance(s.shape, Line) for end in (s.shape.start, s.shape.end)]
    for shift in (0.0, there.left - whole.box.left, there.right - whole.box.right):
        if all(any(math.dist((x + shift, y), end) < SAME for end in ends) for x, y in edge):
            return shift
    return None
