"""One dimensioned drawing for every distinct part."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from model.cache import kept
from model.piece import Item, Part
from publish.auxiliary_view import auxiliary_view
from publish.drawing.added import Added
from publish.drawing.box import Box, around
from publish.drawing.details import Detail
from publish.drawing.lettering import set_text, wrap
from publish.drawing.part_drawing import PartDrawing, draw_details, draw_part
from publish.drawing.records import Record
from publish.drawing.room import largest_room
from publish.drawing.scales import STANDARD
from publish.drawing.style import points
from publish.drawing.wishes import Wish
from publish.edition import Edition, Leaf
from publish.part_section_drawing import section_across
from publish.part_views import DrawnPart
from publish.part_wishes import wishes
from publish.pictures import set_pictorial
from publish.words.names import capital, item_name, quantity
from publish.words.notes import notes

MOST_SHEETS = 4
LETTERS = "ABCDEFGH"  # of details, at most so many a part
NOTE_WIDTH = 100.0  # mm
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
            asked = (tuple(details), drawn.views, scale, edition.drawing_area, tuple(taken), edition.style)
            drawing = kept("details", partial(tuple, asked), partial(draw_details, *asked))
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
        added = () if made else _added(edition, item.mark, part, drawn, drawing, taken)
        made.append(_leaf(edition, item, part, drawing, added, note_records, taken, bool(details), len(made)))
        details = drawing.waiting
    return made


def _added(
    edition: Edition, mark: str, part: Part, drawn: DrawnPart, drawing: PartDrawing, taken: Sequence[Box]
) -> tuple[Added, ...]:
    """A section across the part, then the view along an arrow, each in the room that is left by what came before."""
    made: list[Added] = []
    for add in (section_across, auxiliary_view):
        there = made[-1].drawing if made else drawing
        one = add(edition, mark, part, drawn, there, (*taken, *(box for other in made for box in other.boxes)))
        if one is not None:
            made.append(one)
    return tuple(made)


def _views_drawn(
    edition: Edition,
    item: Item,
    drawn: DrawnPart,
    waiting: Sequence[Wish],
    taken: Sequence[Box],
    letters: Sequence[str],
) -> PartDrawing:
    asked = (
        drawn.views,
        tuple(waiting),
        edition.drawing_area,
        edition.projection,
        tuple(taken),
        edition.style,
        tuple(letters),
    )
    drawing = kept("part drawing", partial(tuple, asked), partial(draw_part, *asked))
    if drawing is None:
        raise RuntimeError(f"{item.name} fits the sheet at no standard scale")
    return drawing


def _leaf(
    edition: Edition,
    item: Item,
    part: Part,
    drawing: PartDrawing,
    added: Sequence[Added],
    note_records: list[Record],
    taken: Sequence[Box],
    of_details: bool,
    number: int,
) -> Leaf:
    records: list[Record] = [*note_records, *drawing.records()]
    if added:
        drawing = added[-1].drawing
        records = [*note_records, *drawing.records(), *(record for one in added for record in one.records)]
        taken = (*taken, *(box for one in added for box in one.boxes))
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
