"""The piece taken apart, every distinct part with its mark and number, and the list of them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from model.piece import Item
from publish.drawing.balloons import BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box, Segment
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.table import Column, Row, TablePart, set_table
from publish.edition import Edition, Leaf
from publish.pictures import set_pictorial
from publish.shade import anchor
from publish.words.names import capital, in_figures, item_name, quantity

LIST_WIDTH = 66.0
MARGIN = 11.0  # mm kept round the picture for balloons
CLEAR = 4.0  # mm between picture and list
SMALLER = tuple(1 - 0.04 * n for n in range(16))  # sizes of the picture tried, of the largest


def leaves(edition: Edition) -> list[Leaf]:
    """One drawing sheet, the picture as large as leaves room for the parts list and for every balloon."""
    area = edition.drawing_area
    for records, placed, occupied, corner in _ways(edition, area):
        balloons = _balloons(edition, placed, occupied, corner)
        if balloons is not None:
            table = _list(edition, corner)
            info = edition.info("Exploded view", "WHOLE PIECE", quantity=in_figures(len(edition.piece.parts), "part"))
            return [Leaf("exploded", "Exploded view", (*records, *balloons, *table.records), info, "drawing")]
    raise RuntimeError("the exploded view leaves no room for its list and its balloons")


def _ways(edition: Edition, area: Box) -> Iterator[tuple[list[Record], PlacedView, Occupied, Box]]:
    """The picture over all the sheet and beside a strip for the list, the largest first; a corner is free in each."""
    beside = Box(area.left, area.bottom, area.right - LIST_WIDTH - CLEAR, area.top)
    largest = [(room, _picture(edition, room, 1.0)[1].scale) for room in (area, beside)]
    sizes = [(scale * smaller, smaller, room) for room, scale in largest for smaller in SMALLER]
    for _, smaller, room in sorted(sizes, key=lambda size: -size[0]):
        records, placed = _picture(edition, room, smaller)
        occupied = _occupied(edition, area, placed)
        corner = _free_corner(edition, area, occupied)
        if corner is not None:
            yield records, placed, occupied, corner


def _picture(edition: Edition, area: Box, smaller: float) -> tuple[list[Record], PlacedView]:
    room = area.grown(-MARGIN)
    x, y = room.centre
    wide, high = room.width * smaller / 2, room.height * smaller / 2
    return set_pictorial(edition.drawn.apart, Box(x - wide, y - high, x + wide, y + high), edition.style)


def _occupied(edition: Edition, area: Box, placed: PlacedView) -> Occupied:
    """Where the parts of the picture, and the guide lines between them, are on the sheet."""
    picture = edition.drawn.apart
    left, bottom = placed.at((picture.box.left, picture.box.bottom))
    right, top = placed.at((picture.box.right, picture.box.top))
    occupied = Occupied(area)
    occupied.add_grid(np.flipud(picture.tint.ids >= 0)[::4, ::4], Box(left, bottom, right, top))
    for a, b in picture.guides:
        occupied.add_line(Segment(*placed.at(a), *placed.at(b)))
    return occupied


def _free_corner(edition: Edition, area: Box, occupied: Occupied) -> Box | None:
    """The first corner with room for the parts list."""
    part = _list(edition, Box(0.0, 0.0, LIST_WIDTH, area.height))
    if part.rest or part.box is None:
        raise RuntimeError("the parts list is longer than the sheet")
    high = part.box.height
    for right in (True, False):
        for upper in (True, False):
            x = area.right - LIST_WIDTH if right else area.left
            y = area.top if upper else area.bottom + high
            box = Box(x, y - high, x + LIST_WIDTH, y)
            if occupied.empty(box.grown(CLEAR)):
                return box
    return None


def _balloons(edition: Edition, placed: PlacedView, occupied: Occupied, corner: Box) -> list[Record] | None:
    """Every balloon; None where one finds no place."""
    wishes = []
    for item in edition.piece.items:
        at = _seen_best(edition, item)
        if at is not None:
            many = f"×{item.quantity}" if item.quantity > 1 else ""
            wishes.append(BalloonWish(item.mark, placed.at(at), many))
    layout = place_balloons(wishes, occupied, (corner.grown(CLEAR / 2),), edition.style)
    return None if layout.unplaced else layout.records(edition.style)


def _seen_best(edition: Edition, item: Item) -> tuple[float, float] | None:
    """A spot in the part of this item of which most is seen."""
    picture = edition.drawn.apart
    numbers = [picture.names.index(name) for name in (*item.parts, *item.mirrored)]
    best = max(numbers, key=lambda number: (picture.tint.count(number), -number))
    return anchor(picture.tint, best)


def _list(edition: Edition, area: Box) -> TablePart:
    columns = (Column("Mark", style="bold"), Column("Part", stretch=1.0), Column("No.", "right"))
    rows = [
        Row((item.mark, capital(item_name(edition.piece, item)), quantity(item)), to=edition.part_sheet(item))
        for item in edition.piece.items
    ]
    return set_table(columns, rows, Box(area.left, area.bottom - 1.0, area.right, area.top), style=edition.style)
