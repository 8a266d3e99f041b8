"""The piece taken apart, every distinct part with its mark and number, and the list of them."""

from __future__ import annotations

import numpy as np

from model.piece import Item
from publish.drawing.balloons import BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.table import Column, Row, set_table
from publish.edition import Edition, Leaf
from publish.pictures import set_pictorial
from publish.shade import anchor
from publish.words.names import capital, item_name, quantity

LIST_WIDTH = 66.0
MARGIN = 12.0  # mm kept round the picture for balloons


def leaves(edition: Edition) -> list[Leaf]:
    """One drawing sheet, the parts list on its right."""
    free = edition.drawing_area
    area = Box(free.left, free.bottom, free.right - LIST_WIDTH - 6.0, free.top)
    records, placed = set_pictorial(edition.drawn.apart, area.grown(-MARGIN), edition.style)
    records += _balloons(edition, area, placed)
    records += _list(edition, Box(free.right - LIST_WIDTH, free.bottom, free.right, free.top))
    info = edition.info("Exploded view", "WHOLE PIECE", quantity=f"{len(edition.piece.parts)} parts")
    return [Leaf("exploded", "Exploded view", tuple(records), info, "drawing")]


def _balloons(edition: Edition, area: Box, placed: PlacedView) -> list[Record]:
    picture = edition.drawn.apart
    grid = np.flipud(picture.tint.ids >= 0)[::4, ::4]
    left, bottom = placed.at((picture.box.left, picture.box.bottom))
    right, top = placed.at((picture.box.right, picture.box.top))
    occupied = Occupied(area)
    occupied.add_grid(grid, Box(left, bottom, right, top))
    wishes = []
    for item in edition.piece.items:
        at = _seen_best(edition, item)
        if at is not None:
            many = f"×{item.quantity}" if item.quantity > 1 else ""
            wishes.append(BalloonWish(item.mark, placed.at(at), many))
    layout = place_balloons(wishes, occupied, style=edition.style)
    if layout.unplaced:
        raise RuntimeError("a balloon of the exploded view finds no place")
    return layout.records(edition.style)


def _seen_best(edition: Edition, item: Item) -> tuple[float, float] | None:
    """A spot in the part of this item of which most is seen."""
    picture = edition.drawn.apart
    numbers = [picture.names.index(name) for name in (*item.parts, *item.mirrored)]
    best = max(numbers, key=lambda number: (picture.tint.count(number), -number))
    return anchor(picture.tint, best)


def _list(edition: Edition, area: Box) -> list[Record]:
    columns = (Column("Mark", style="bold"), Column("Part", stretch=1.0), Column("No.", "right"))
    rows = [
        Row((item.mark, capital(item_name(edition.piece, item)), quantity(item)), to=edition.part_sheet(item))
        for item in edition.piece.items
    ]
    part = set_table(columns, rows, area, style=edition.style)
    if part.rest:
        raise RuntimeError("the parts list is longer than the sheet")
    return list(part.records)


