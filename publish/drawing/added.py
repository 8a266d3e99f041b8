"""What is added to the sheet of a part in the room that is left, when everything else has its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from model.cache import kept
from publish.drawing.box import Box
from publish.drawing.dimensioning import place
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.records import Record
from publish.drawing.style import HouseStyle


@dataclass(frozen=True)
class Added:
    """The sheet with the places of everything else, what is drawn besides, and the room that takes."""

    drawing: PartDrawing
    records: tuple[Record, ...]
    boxes: tuple[Box, ...]


def added(
    drawing: PartDrawing,
    records: Sequence[Record],
    boxes: Sequence[Box],
    area: Box,
    taken: Sequence[Box],
    style: HouseStyle,
) -> Added | None:
    """Records that fill `boxes` of a sheet, all its sizes placed anew round them; None where one finds no place.

    taken: what else the sizes keep clear of.
    """
    asked = [placement.wish for placement in drawing.layout.placements]
    again = (asked, drawing.views, area, (*taken, *boxes), style)
    layout = kept("sizes round what is added", partial(tuple, again), partial(place, *again))
    return None if layout.unplaced else Added(replace(drawing, layout=layout), tuple(records), tuple(boxes))
