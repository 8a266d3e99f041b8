"""The whole piece from the front, from above and from the right, with its overall sizes and key heights."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from model.piece import Part, Piece
from publish.drawing.box import Box
from publish.drawing.part_drawing import draw_part
from publish.drawing.room import largest_room
from publish.drawing.view import View
from publish.drawing.wishes import DimensionWish, Wish
from publish.edition import Edition, Leaf
from publish.pictures import set_pictorial
from publish.words.names import capital, in_figures, listed

LEVEL = 0.02  # mm: a top this even is a height one can measure
LEAST_APART = 12.0  # mm between two heights worth telling apart
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
    obstacles = [*(placed.box for placed in drawing.views), *drawing.layout.boxes()]
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
    wished += [upright(side.box, "end", level, "position") for level in heights(edition.piece)]
    return wished


def heights(piece: Piece) -> list[float]:
    """Tops of level parts between floor and top, apart enough to be told (mm), lowest first."""
    found: list[float] = []
    for part in piece.parts.values():
        mesh = part.mesh
        top = float(mesh.box[1][2])
        up = mesh.normals[:, 2] > 0.9999
        even = np.abs(mesh.corners[:, :, 2].max(axis=1) - top) < LEVEL
        if part.spec.runs != "up-down" and bool((up & even).any()):
            found.append(top)
    chosen: list[float] = []
    whole = float(piece.size[2])
    for level in sorted(found):
        clear = all(abs(level - other) >= LEAST_APART for other in chosen)
        if clear and LEAST_APART < level < whole - LEAST_APART:
            chosen.append(level)
    return chosen[:MOST_HEIGHTS]


def _materials(parts: Iterable[Part]) -> str:
    """What the piece is made of, where that is soon said."""
    every = dict.fromkeys(part.spec.made_of for part in parts)
    return capital(listed(every)) if len(every) <= MATERIALS else "See the cut list"
