"""One dimensioned drawing for every distinct part."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from model.frames import axis_vector
from model.piece import Item, Part, Size
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side
from publish.drawing.box import Box, around
from publish.drawing.details import Detail
from publish.drawing.lettering import set_text, wrap
from publish.drawing.part_drawing import PartDrawing, draw_details, draw_part
from publish.drawing.records import Record
from publish.drawing.room import largest_room
from publish.drawing.scales import STANDARD
from publish.drawing.style import points
from publish.drawing.wishes import CalloutWish, DimensionWish, Wish
from publish.edition import Edition, Leaf
from publish.part_views import DrawnPart
from publish.pictures import set_pictorial
from publish.words.callouts import said
from publish.words.names import capital, item_name, quantity
from publish.words.notes import notes

MOST_SHEETS = 4
LETTERS = "ABCDEFGH"  # of details, at most so many a part
NOTE_WIDTH = 100.0  # mm
SIGNS = {"diameter": "Ø "}  # before the number of a size of that name
ACROSS = {"taper begins"}
THUMBNAIL = (62.0, 40.0)  # mm, the largest a small picture of the part is drawn
LEAST_THUMBNAIL = 22.0


def leaves(edition: Edition) -> list[Leaf]:
    """The part sheets, in the order of the marks."""
    return [leaf for item in edition.piece.items for leaf in _sheets(edition, item)]


def _sheets(edition: Edition, item: Item) -> list[Leaf]:
    """As many sheets as it takes: what finds no place on one goes on the next, and is never left out."""
    part, drawn = edition.piece.parts[item.shown], edition.drawn.parts[item.mark]
    waiting: Sequence[Wish] = wishes(edition, part, drawn)
    details: Sequence[Detail] = ()
    scale = STANDARD[0]
    letters = list(LETTERS)
    made: list[Leaf] = []
    while waiting or details or not made:
        if len(made) == MOST_SHEETS:
            raise RuntimeError(f"the sizes of {item.name} find no place on {MOST_SHEETS} sheets")
        note_records, note_box = _notes(edition, item, drawn)
        taken = (note_box, *edition.mark_corner(item.mark))
        if details:
            drawing = draw_details(details, drawn.views, scale, edition.drawing_area, taken, edition.style)
            waiting = (*waiting, *drawing.unplaced)
        else:
            drawing = _views_drawn(edition, item, drawn, waiting, taken, letters)
            if waiting and len(drawing.unplaced) == len(waiting):
                raise RuntimeError(f"none of the remaining sizes of {item.name} finds a place")
            waiting, scale = drawing.unplaced, drawing.scale
            used = len(drawing.details) + len(drawing.waiting)
            del letters[:used]
        if details and len(drawing.waiting) == len(details):
            raise RuntimeError(f"none of the remaining details of {item.name} finds room")
        made.append(_leaf(edition, item, part, drawing, note_records, taken, bool(details), len(made)))
        details = drawing.waiting
    return made


def _views_drawn(
    edition: Edition,
    item: Item,
    drawn: DrawnPart,
    waiting: Sequence[Wish],
    taken: Sequence[Box],
    letters: Sequence[str],
) -> PartDrawing:
    drawing = draw_part(
        drawn.views, waiting, edition.drawing_area, edition.projection, taken, edition.style, tuple(letters)
    )
    if drawing is None:
        raise RuntimeError(f"{item.name} fits the sheet at no standard scale")
    return drawing


def _leaf(
    edition: Edition,
    item: Item,
    part: Part,
    drawing: PartDrawing,
    note_records: list[Record],
    taken: Sequence[Box],
    of_details: bool,
    number: int,
) -> Leaf:
    records: list[Record] = [*note_records, *drawing.records()]
    if not of_details:
        records += _thumbnail(edition, item, drawing, taken)
    title = capital(item_name(edition.piece, item))
    info = edition.info(
        title,
        "PART, DETAILS" if of_details else "PART, FURTHER SIZES" if number else "PART",
        mark=item.mark,
        quantity=quantity(item),
        material=capital(part.spec.made_of) + (f", {part.spec.stock}" if part.spec.stock else ""),
        scale="As shown" if of_details else drawing.scale.name,
    )
    key = edition.part_sheet(item) + ("" if number == 0 else f"-{number + 1}")
    return Leaf(key, f"{item.mark}  {title}", tuple(records), info, "drawing", level=1 if number == 0 else None)


def _notes(edition: Edition, item: Item, drawn: DrawnPart) -> tuple[list[Record], Box]:
    free = edition.drawing_area
    size, heading = edition.style.lettering.small, points(10.0)
    x, y = free.left, free.top - heading
    records = set_text("NOTES", x, y, heading, "bold")
    y -= 1.2
    for n, note in enumerate(notes(edition, item, drawn), start=1):
        for i, line in enumerate(wrap(note, NOTE_WIDTH, size)):
            y -= size * 1.36
            if i == 0:
                records += set_text(f"{n}.", x, y, size)
            records += set_text(line, x + 5.0, y, size)
    return records, around(record.box for record in records).grown(2.0)


def wishes(edition: Edition, part: Part, drawn: DrawnPart) -> list[Wish]:
    """All that the sheet has to say: sizes first, then callouts; each once."""
    found: dict[tuple[object, ...], list[DimensionWish]] = {}
    for number, feature in enumerate(part.features):
        for size in feature.sizes:
            wish = _dimension(edition, part, drawn, size, f"{number} {size.along} {size.face}")
            found.setdefault(_sameness(wish, size, part), []).append(wish)
    sizes = [_once(alike) for alike in found.values()]
    return [*_not_twice(sizes), *_callouts(edition, part, drawn)]


def _dimension(edition: Edition, part: Part, drawn: DrawnPart, size: Size, group: str) -> DimensionWish:
    key = drawn.key_for(size, part.spec.runs, part.spec.thick)
    seen = drawn.view_of(key)
    p0, p1 = seen.at(size.start), seen.at(size.end)
    direction = "h" if abs(p1[0] - p0[0]) > abs(p1[1] - p0[1]) and _level(drawn, key, size) else "v"
    return DimensionWish(key, p0, p1, direction, printed(edition, part, size), size.role, group)  # type: ignore[arg-type]


def printed(edition: Edition, part: Part, size: Size) -> str:
    """A size as printed: the difference of two places, each rounded once from the end that is measured from.

    Chains of printed sizes then always close, and no place set out by them is off by more than half a step.
    """
    if size.name in SIGNS:  # no place: a diameter is measured across, and printed as it is
        return SIGNS[size.name] + edition.number(size.value)
    axis = AXIS_NUMBER[size.along]
    reach = {part.spec.runs: part.length, part.spec.thick: part.thickness}.get(size.along, part.width)
    datum = reach[1] if size.along == part.spec.runs == "up-down" else reach[0]
    first, second = (edition.units.round(point[axis] - datum) for point in (size.start, size.end))
    return edition.number(abs(second - first))


def _level(drawn: DrawnPart, key: str, size: Size) -> bool:
    """Whether the axis of a size lies along the page in a view."""
    right = drawn.view_of(key).axes.right
    return abs(float(axis_vector(size.along) @ np.array(right))) > 0.5


def _sameness(wish: DimensionWish, size: Size, part: Part) -> tuple[object, ...]:
    """Sizes alike in name, value and view are one thing said of several features; positions only at one place.

    A line right across the part, such as where tapers begin, is set out once, whichever view shows it.
    """
    if size.role == "size":
        return (wish.view, wish.direction, size.name, wish.text)
    axis = 0 if wish.direction == "h" else 1
    places = tuple(sorted((round(wish.p0[axis], 2), round(wish.p1[axis], 2))))
    if size.name in ACROSS and size.along == part.spec.runs:
        return (size.name, places)
    return (wish.view, wish.direction, size.role == "overall", places)


def _once(alike: list[DimensionWish]) -> DimensionWish:
    first = alike[0]
    distinct = {_span(wish) for wish in alike}
    if first.role != "size" or len(distinct) == 1:
        return first
    return DimensionWish(
        first.view, first.p0, first.p1, first.direction, f"{len(distinct)}× {first.text}", first.role, first.group
    )


def _span(wish: DimensionWish) -> tuple[float, ...]:
    axis = 0 if wish.direction == "h" else 1
    return tuple(sorted((round(wish.p0[axis], 2), round(wish.p1[axis], 2))))


def _not_twice(sizes: list[DimensionWish]) -> list[DimensionWish]:
    """No two dimensions between the same two lines of a view: an overall size wins over a feature's."""
    kept: dict[tuple[object, ...], DimensionWish] = {}
    for wish in sorted(sizes, key=lambda w: w.role != "overall"):
        kept.setdefault((wish.view, wish.direction, _span(wish)), wish)
    return list(kept.values())


def _callouts(edition: Edition, part: Part, drawn: DrawnPart) -> list[CalloutWish]:
    found: dict[tuple[str, tuple[str, ...]], list[tuple[tuple[float, float], int]]] = {}
    for feature in part.features:
        for callout in feature.callouts:
            words = said(callout.what, callout.values, edition)
            if words is None:
                continue
            key = _view_for(drawn, part, callout.face)
            at = drawn.view_of(key).at(callout.point)
            found.setdefault((key, words.lines), []).append((at, words.each))
    return [_callout(key, lines, places) for (key, lines), places in found.items()]


def _callout(key: str, lines: tuple[str, ...], places: list[tuple[tuple[float, float], int]]) -> CalloutWish:
    total = sum(each for _, each in places)
    first = f"{total}× {lines[0]}" if total > 1 else lines[0]
    at = max((place for place, _ in places), key=lambda p: (round(p[0], 3), round(p[1], 3)))
    return CalloutWish(key, at, (first, *lines[1:]))


def _view_for(drawn: DrawnPart, part: Part, face: Side) -> str:
    axis = SIDE_AXIS[face]
    if axis == part.spec.thick:
        return "face"
    if axis == part.spec.runs:
        return "end" if drawn.end is not None else "edge"
    return "edge"


def _thumbnail(edition: Edition, item: Item, drawing: PartDrawing, taken: Sequence[Box]) -> list[Record]:
    """A small picture of the part in the largest room left; none where there is too little."""
    room = largest_room(edition.drawing_area, [*taken, *drawing.boxes()], 3.0)
    if room is None:
        return []
    picture = edition.drawn.parts[item.mark].picture
    area = Box(0, 0, min(room.width, THUMBNAIL[0]), min(room.height, THUMBNAIL[1]))
    if min(area.width / picture.box.width, area.height / picture.box.height) * picture.box.width < LEAST_THUMBNAIL:
        return []
    middle = area.moved(room.centre[0] - area.width / 2, room.centre[1] - area.height / 2)
    return set_pictorial(picture, middle, edition.style)[0]
