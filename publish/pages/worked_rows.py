"""The parts that a step works on, in rows that run on into the next column where they have to."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from model.piece import Item
from publish.cut_labels import least_height, most_height, set_worked
from publish.drawing.box import Box
from publish.drawing.flow import Picture
from publish.drawing.lettering import set_text, text_width
from publish.drawing.records import Record
from publish.edition import Edition
from publish.pictures import Pictorial
from publish.words.names import item_name

ONE_COLUMN = 3  # items at most that stand one below the other
CLOSER = (2, 3)  # columns where room is short
NAMES_APART = 2.0  # mm
AFTER = 5.0  # mm right of a picture
NAME, AIR = 5.0, 2.5  # mm above a picture for its mark and name, and below it
Shown = Sequence[tuple[Item, Pictorial]]


def columns_tried(edition: Edition, items: Mapping[Item, Pictorial], width: float) -> list[int]:
    """Into how many columns the pictures may go: as usual, then closer, as long as every name stands in its column."""
    longest = max(_name_end(edition, item) for item in items)
    usual = 1 if len(items) <= ONE_COLUMN else 2
    return [usual, *(n for n in CLOSER if usual < n < len(items) and longest < width / n - NAMES_APART)]


def worked_rows(
    edition: Edition, items: Mapping[Item, Pictorial], width: float, height: float, columns: int
) -> list[Picture]:
    """Rows of pictures, `width` mm wide and `height` mm high in all; higher where that is less than they need."""
    high = math.ceil(len(items) / columns)
    every = list(items.items())
    rows = [[every[n] for n in range(row, len(every), high)] for row in range(high)]
    wide = width / columns
    least = [max(least_height(edition, p, wide - AFTER) for _, p in row) + NAME + AIR for row in rows]
    most = [max(most_height(edition, p, wide - AFTER) for _, p in row) + NAME + AIR for row in rows]
    more = max(0.0, height - sum(least)) / len(rows)
    heights = [max(tall, min(tall + more, enough)) for tall, enough in zip(least, most, strict=True)]
    return [Picture(_row(edition, row, wide, tall), tall) for row, tall in zip(rows, heights, strict=True)]


def _row(edition: Edition, row: Shown, wide: float, high: float) -> tuple[Record, ...]:
    """Each part under its mark and its name; the upper left corner of the row is at the origin."""
    size = edition.style.lettering.small
    records: list[Record] = []
    for n, (item, picture) in enumerate(row):
        left = n * wide
        records += set_text(item.mark, left, 1.2 - NAME, size * 1.15, "bold")
        records += set_text(_name(edition, item), left + _name_start(edition, item), 1.2 - NAME, size)
        records += set_worked(edition, picture, Box(left, AIR - high, left + wide - AFTER, -NAME))
    return tuple(records)


def _name(edition: Edition, item: Item) -> str:
    return f"{item_name(edition.piece, item)}, {item.quantity}"


def _name_start(edition: Edition, item: Item) -> float:
    """Mm from the mark's left to the name."""
    return text_width(item.mark, edition.style.lettering.small * 1.15, "bold") + 2.0


def _name_end(edition: Edition, item: Item) -> float:
    """Mm from the mark's left to the name's right."""
    return _name_start(edition, item) + text_width(_name(edition, item), edition.style.lettering.small)
