"""A section across a part, set in what room its sheet has left: the line on the view, the hatched cut, its depths.

It comes after everything else on the sheet; it stands only where all sizes find their place beside it.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from model.frames import axis_vector
from model.part_sections import PartSection, part_sections
from model.piece import Part
from publish.drawing.added import Added, added
from publish.drawing.box import Box, around
from publish.drawing.cutting_line import cutting_line
from publish.drawing.dimensioning import Layout, place
from publish.drawing.lettering import set_text
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.room import room_near
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.strokes import bounds
from publish.drawing.view import Axes, Line, Stroke, View
from publish.drawing.wishes import DimensionWish
from publish.edition import Edition
from publish.hatches import hatch_of
from publish.part_views import DrawnPart
from publish.part_wishes import printed
from publish.printed_places import printed_places
from publish.section_drawing import hatching
from publish.size_trees import not_twice, rings_opened
from publish.words.sections import section_title

LETTERS = "KL"  # beyond those of details; the first that is not the mark of the part
AIR = (14.0, 12.0)  # mm round a section, for its sizes
TITLE = 7.0  # mm over it
CLEAR = 1.0  # mm to anything else
LARGEST = 1.0  # times real


def section_across(
    edition: Edition, mark: str, part: Part, drawn: DrawnPart, drawing: PartDrawing, taken: Sequence[Box]
) -> Added | None:
    """None where nothing wants it, or the sheet has no room for it: everything else has to find its place again."""
    face = next(view for view in drawing.views if view.key == "face")
    if face.view.box.width < drawn.views.face.box.width - 0.01:  # broken: places along it are not to scale
        return None
    others = [view.box.grown(3.0) for view in drawing.views if view is not face]
    titles = [seat.title_box(edition.style) for seat in drawing.details]
    axes = drawn.views.face.axes
    letter = section_letter(mark)
    for section in part_sections(part, np.array(axes.right), np.array(axes.up)):
        line = _line(edition, part, drawn, face, section, letter)
        ends = _outside([record.box for record in line], face.box)
        if any(end.meets(box) for end in ends for box in (*taken, *others, *titles)):
            continue
        obstacles = [*taken, *others, *titles, *drawing.layout.boxes(), face.box.grown(3.0), *ends]
        found = _seated(edition, part, letter, section, _view(section), obstacles, face, drawing.scale)
        if found is None:
            continue
        room, records = found
        made = added(drawing, (*line, *records), (room, *ends), edition.drawing_area, (*taken, *titles), edition.style)
        if made is not None:
            return made
    return None


def section_letter(mark: str) -> str:
    """What the section of a part is called."""
    return next(letter for letter in LETTERS if letter != mark)


def _outside(line: Sequence[Box], view: Box) -> list[Box]:
    """What a line that runs across a view takes over and under it."""
    over = around(box for box in line if box.bottom > view.top - 0.1)
    under = around(box for box in line if box.top < view.bottom + 0.1)
    return [over.grown(CLEAR, 0.0), under.grown(CLEAR, 0.0)]


def _line(
    edition: Edition, part: Part, drawn: DrawnPart, face: PlacedView, section: PartSection, letter: str
) -> list[Record]:
    at = drawn.views.face.at(axis_vector(part.spec.runs) * section.at)
    return cutting_line(face, (0.0, 1.0), at, (-1.0, 0.0), letter, edition.style)


def _view(section: PartSection) -> View:
    strokes = [
        Stroke("visible", Line((float(a[0]), float(a[1])), (float(b[0]), float(b[1]))))
        for ring in section.cut.rings
        for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)
    ]
    plane = section.plane
    axes = Axes(*(tuple(way.tolist()) for way in (plane.right, plane.up, plane.towards)))
    return View(axes, tuple(strokes), bounds(strokes))


def _seated(
    edition: Edition,
    part: Part,
    letter: str,
    section: PartSection,
    seen: View,
    obstacles: Sequence[Box],
    face: PlacedView,
    least: Scale,
) -> tuple[Box, list[Record]] | None:
    """The section at the largest scale, real size at the most and that of the views at the least, that finds room."""
    for scale in STANDARD:
        if not least.factor <= scale.factor <= LARGEST:
            continue
        k = scale.factor
        wide, high = seen.box.width * k + 2 * AIR[0], seen.box.height * k + 2 * AIR[1] + TITLE
        room = room_near(edition.drawing_area, wide, high, obstacles, (face.box.right, face.box.centre[1]))
        if room is None:
            continue
        x = room.left + AIR[0] - seen.box.left * k
        y = room.bottom + AIR[1] - seen.box.bottom * k
        placed = PlacedView("section", seen, x, y, k)
        layout = _sizes(edition, part, section, placed, room)
        if not layout.unplaced:
            return room, _records(edition, letter, section, placed, layout, room, scale)
    return None


def _sizes(edition: Edition, part: Part, section: PartSection, placed: PlacedView, room: Box) -> Layout:
    places = printed_places(part, edition.units)
    wished = [
        DimensionWish(
            placed.key,
            (float(size.start[0]), float(size.start[1])),
            (float(size.end[0]), float(size.end[1])),
            "v" if size.axis else "h",
            edition.number(size.value) if size.size is None else printed(edition, places, size.size),
        )
        for size in section.sizes
    ]
    below_title = Box(room.left, room.bottom, room.right, room.top - TITLE)
    return place(rings_opened(not_twice(wished)), [placed], below_title, (), edition.style)


def _records(
    edition: Edition, letter: str, section: PartSection, placed: PlacedView, layout: Layout, room: Box, scale: Scale
) -> list[Record]:
    style = edition.style
    title = f"{section_title(letter)} ({scale.name})"
    size = style.lettering.callout
    return [
        *hatching(
            [section.cut], lambda _, k: hatch_of(section.cut.stuff, section.plane, 0, k), placed, style.pens.dimension
        ),
        *placed.records(style.pens),
        *layout.records(),
        *set_text(title, room.centre[0], room.top - size, size, "bold", "centre"),
    ]
