"""The whole piece from the front, from above and from the right, with its overall sizes and key heights."""

from __future__ import annotations

from collections.abc import Iterable

from model.frames import axis_vector
from model.key_heights import heights
from model.piece import Part, Piece
from publish.drawing.box import Box
from publish.drawing.cutting_line import cutting_line
from publish.drawing.part_drawing import draw_part
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.room import largest_room
from publish.drawing.view import View
from publish.drawing.wishes import DimensionWish, Wish
from publish.edition import Edition, Leaf
from publish.pictures import set_pictorial
from publish.words.names import capital, in_figures, listed

MOST_HEIGHTS = 4
LEAST_PICTURE = 25.0  # mm: less room is left empty

MATERIALS = 2  # more do not fit in the title block


def leaves(edition: Edition) -> list[Leaf]:
    """One drawing sheet."""
    views = edition.drawn.overall
    assert views.edge is not None and views.end is not None
    wished = _wishes(edition, views.face, views.edge, views.end)
    drawing = draw_part(views, wished, edition.drawing_area, edition.projection, style=edition.style)
    if drawing is None or drawing.unplaced:
        raise RuntimeError("the overall views find no place on a sheet")
    records = [record for placed in drawing.views for record in placed.records(edition.style.pens)]
    records += drawing.layout.records()
    traces = _cutting_lines(edition, next(placed for placed in drawing.views if placed.key == "edge"))
    records += traces
    obstacles = [*(record.box for record in traces), *(placed.box for placed in drawing.views), *drawing.layout.boxes()]
    room = largest_room(edition.drawing_area, obstacles, 6.0)
    if room is not None and min(room.width, room.height) > LEAST_PICTURE:
        records += set_pictorial(edition.drawn.whole, room, edition.style, drawing.scale.factor)[0]
    parts = edition.piece.parts.values()
    info = edition.info(
        "Overall views",
        "WHOLE PIECE",
        scale=drawing.scale.name,
        quantity=in_figures(len(parts), "part"),
        material=_materials(parts),
    )
    return [Leaf("overall", "Overall views", tuple(records), info, "drawing")]


def _wishes(edition: Edition, front: View, above: View, side: View) -> list[Wish]:
    n = edition.number
    width, depth, height = edition.piece.size

    def across(view: View, key: str, value: float) -> DimensionWish:
        box = view.box
        return DimensionWish(key, (box.left, box.bottom), (box.right, box.bottom), "h", n(value), "overall")

    def upright(box: Box, key: str, top: float, role: str) -> DimensionWish:
        start = (box.left, 0.0)
        return DimensionWish(key, start, (box.left, top), "v", n(top), role)  # type: ignore[arg-type]

    wished: list[Wish] = [across(front, "face", width), across(side, "end", depth)]
    wished.append(upright(front.box, "face", height, "overall"))
    wished += [upright(side.box, "end", level, "position") for level in _levels(edition.piece)]
    return wished


def _cutting_lines(edition: Edition, above: PlacedView) -> list[Record]:
    """Where the sections are taken, on the view from above."""
    found: list[Record] = []
    for section in edition.drawn.sections:
        plane = section.plane
        seen = above.view.axes.at(-plane.towards)
        along = above.view.axes.at(plane.right)
        at = above.view.axes.at(axis_vector(plane.axis) * plane.at)
        found += cutting_line(above, along, at, seen, plane.letter, edition.style)
    return found


def _levels(piece: Piece) -> list[float]:
    return [height.level for height in heights(piece, piece.parts.values(), MOST_HEIGHTS)]


def _materials(parts: Iterable[Part]) -> str:
    """What the piece is made of, where that is soon said."""
    every = dict.fromkeys(part.spec.made_of for part in parts)
    return capital(listed(every)) if len(every) <= MATERIALS else "See the cut list"
