"""A sheet in cells of one size, for several small drawings on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from publish.drawing.box import Box
from publish.drawing.records import Line, Record
from publish.drawing.style import Pen

GUTTER = 8.0  # mm between cells


@dataclass(frozen=True)
class Grid:
    """Cells of a drawing sheet, filled from left to right, then down."""

    area: Box
    columns: int
    rows: int

    def cell(self, number: int) -> Box:
        """Cell `number`, from 0."""
        row, column = divmod(number, self.columns)
        wide = (self.area.width - GUTTER * (self.columns - 1)) / self.columns
        high = (self.area.height - GUTTER * (self.rows - 1)) / self.rows
        left, top = self.area.left + column * (wide + GUTTER), self.area.top - row * (high + GUTTER)
        return Box(left, top - high, left + wide, top)

    def rules(self, count: int, pen: Pen) -> list[Record]:
        """Thin lines between the first `count` cells."""
        found: list[Record] = []
        for column in range(1, min(count, self.columns)):
            last = max(n for n in range(count) if n % self.columns == column)
            x = self.cell(column).left - GUTTER / 2
            found.append(Line(x, self.cell(last).bottom, x, self.area.top, pen))
        for row in range(1, math.ceil(count / self.columns)):
            y = self.cell(row * self.columns).top + GUTTER / 2
            found.append(Line(self.area.left, y, self.area.right, y, pen))
        return found
