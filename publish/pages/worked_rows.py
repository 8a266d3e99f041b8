"""The parts that a step works on, in rows that run on into the next column where they have to."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from model.piece import Item
from publish.cut_labels import least_height, set_worked
from publish.drawing.box import Box
from publish.drawing.flow import Picture
from publish.drawing.lettering import set_text
from publish.drawing.records import Record
from publish.edition import Edition
from publish.pictures import Pictorial
from publish.words.names import item_name

ONE_COLUMN = 3  # items at most that stand one below the other
MARK, AFTER = 8.0, 4.0  # mm left of a picture for the mark, and right of it
NAME, ABOVE = 4.5, 1.0  # mm below a picture for the name, and above it
Shown = Sequence[tuple[Item, Pictorial]]


def worked_rows(edition: Edition, items: Mapping[Item, Pictorial], width: float, height: float) -> list[Picture]:
    """Rows of pictures, `width` mm wide and `height` mm high in all; higher where that is less than they need."""
    columns = 1 if len(items) <= ONE_COLUMN else 2
    high = math.ceil(len(items) / columns)
    every = list(items.items())
    rows = [[every[n] for n in range(row, len(every), high)] for row in range(high)]
    wide = width / columns
    least = [max(least_height(edition, p, wide - MARK - AFTER) for _, p in row) + NAME + ABOVE for row in rows]
    more = max(0.0, height - sum(least)) / len(rows)
    return [Picture(_row(edition, row, wide, tall + more), tall + more) for row, tall in zip(rows, least, strict=True)]


def _row(edition: Edition, row: Shown, wide: float, high: float) -> tuple[Record, ...]:
    """Each part with its mark at the left and its name below; the upper left corner of the row is at the origin."""
    size = edition.style.lettering.small
    records: list[Record] = []
    for n, (item, picture) in enumerate(row):
        left = n * wide
        records += set_text(item.mark, left, -high / 2 - size * 0.33, size * 1.15, "bold")
        cell = Box(left + MARK, NAME - high, left + wide - AFTER, -ABOVE)
        records += set_worked(edition, picture, cell)
        name = f"{item_name(edition.piece, item)}, {item.quantity}"
        records += set_text(name, left + MARK, 1.2 - high, size * 0.9)
    return tuple(records)
