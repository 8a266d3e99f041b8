"""What is added to the sheet of a part in the room that is left, when everything else has its place."""

from __future__ import annotations

from dataclasses import dataclass

from publish.drawing.box import Box
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.records import Record


@dataclass(frozen=True)
class Added:
    """The sheet with the places of everything else, what is drawn besides, and the room that takes."""

    drawing: PartDrawing
    records: tuple[Record, ...]
    boxes: tuple[Box, ...]
