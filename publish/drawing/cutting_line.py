"""The line of a cutting plane on a view that sees it on edge: a chain line with heavy ends, arrows and letters.

ISO 128: narrow long-dashed dotted line, wide at its ends; arrows point the way the section is seen (from memory).
"""

from __future__ import annotations

from publish.drawing.box import Point
from publish.drawing.lettering import set_text
from publish.drawing.placed import PlacedView
from publish.drawing.records import Line, Move, Path, Record, Straight
from publish.drawing.style import BLACK, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT

BEYOND = 6.5  # mm the line runs out of the view
HEAVY = 3.5  # mm of it that are wide
SHAFT = 5.5  # mm, an arrow with its head
HEAD = (2.6, 1.0)  # mm long, mm to either side
BESIDE = 1.0  # mm from the line to its letter


def cutting_line(
    placed: PlacedView, along: Point, at: Point, seen: Point, letter: str, style: HouseStyle
) -> list[Record]:
    """The plane through `at` (view mm) along `along`, both ways out of the view; it is looked at along `seen`.

    `along` and `seen` are unit vectors of the page, one upright and one level.
    """
    box, (x, y) = placed.box, placed.at(at)
    level = abs(along[0]) > 0.5
    ends = [(box.left, y), (box.right, y)] if level else [(x, box.bottom), (x, box.top)]
    records: list[Record] = [Line(*ends[0], *ends[1], style.pens.centre)]
    for (ex, ey), sign in zip(ends, (-1.0, 1.0), strict=True):
        out = (abs(along[0]) * sign, abs(along[1]) * sign)
        tip = (ex + out[0] * BEYOND, ey + out[1] * BEYOND)
        inner = (tip[0] - out[0] * HEAVY, tip[1] - out[1] * HEAVY)
        records += [Line(ex, ey, *inner, style.pens.centre), Line(*inner, *tip, style.pens.visible)]
        records += _arrow(tip, seen, style)
        records += _letter(tip, seen, letter, style)
    return records


def _arrow(start: Point, way: Point, style: HouseStyle) -> list[Record]:
    tip = (start[0] + way[0] * SHAFT, start[1] + way[1] * SHAFT)
    neck = (tip[0] - way[0] * HEAD[0], tip[1] - way[1] * HEAD[0])
    aside = (-way[1] * HEAD[1], way[0] * HEAD[1])
    outline = (Move(tip), Straight((neck[0] + aside[0], neck[1] + aside[1])))
    head = Path((*outline, Straight((neck[0] - aside[0], neck[1] - aside[1]))), fill=BLACK, closed=True)
    return [Line(*start, *neck, style.pens.visible), head]


def _letter(start: Point, seen: Point, letter: str, style: HouseStyle) -> list[Record]:
    """On the far side of the line from its arrow."""
    size = style.lettering.heading
    high = CAP_HEIGHT * size
    if abs(seen[0]) > 0.5:
        anchor = "left" if seen[0] < 0 else "right"
        return set_text(letter, start[0] - seen[0] * BESIDE, start[1] - high / 2, size, "bold", anchor)  # type: ignore[arg-type]
    y = start[1] - seen[1] * (BESIDE + (high if seen[1] > 0 else 0.0))
    return set_text(letter, start[0], y, size, "bold", "centre")
