"""The arrow at a view that says from where a part is seen besides, with its letter (ISO 128-3, from memory)."""

from __future__ import annotations

from publish.drawing.box import Point
from publish.drawing.lettering import set_text
from publish.drawing.records import Line, Move, Path, Record, Straight
from publish.drawing.style import BLACK, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT

OFF = 1.5  # mm from the face to the tip
SHAFT = 8.0  # mm, with its head
HEAD = (2.6, 1.0)  # mm long, mm to either side
BESIDE = 2.6  # mm from the end of the shaft to the middle of the letter


def view_arrow(at: Point, way: Point, letter: str, style: HouseStyle) -> list[Record]:
    """An arrow that ends just before `at` (paper mm), pointing along the unit vector `way`."""
    tip = (at[0] - way[0] * OFF, at[1] - way[1] * OFF)
    neck = (tip[0] - way[0] * HEAD[0], tip[1] - way[1] * HEAD[0])
    start = (tip[0] - way[0] * SHAFT, tip[1] - way[1] * SHAFT)
    aside = (-way[1] * HEAD[1], way[0] * HEAD[1])
    outline = (
        Move(tip),
        Straight((neck[0] + aside[0], neck[1] + aside[1])),
        Straight((neck[0] - aside[0], neck[1] - aside[1])),
    )
    size = style.lettering.heading
    middle = (start[0] - way[0] * BESIDE, start[1] - way[1] * BESIDE - CAP_HEIGHT * size / 2)
    return [
        Line(*start, *neck, style.pens.visible),
        Path(outline, fill=BLACK, closed=True),
        *set_text(letter, *middle, size, "bold", "centre"),
    ]
