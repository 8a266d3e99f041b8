"""Room that is left on a sheet: the largest empty rectangle, or one of a size near a place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

import numpy as np

from publish.drawing.box import Box, Point

_CELL = 4.0  # mm
_STEP = 4.0  # mm between the places tried
_CLEAR = 1.0  # mm to anything else


def largest_room(free: Box, obstacles: Sequence[Box], clear: float) -> Box | None:
    """The largest empty box in `free`, `clear` mm from all obstacles, on a grid of 4 mm; None where all is taken.

    Row by row, the largest rectangle under a skyline (a stack of rising columns).
    """
    columns, rows = int(free.width / _CELL), int(free.height / _CELL)
    taken = np.zeros((rows, columns), dtype=bool)
    for box in (obstacle.grown(clear) for obstacle in obstacles):
        left, right = (math.floor((x - free.left) / _CELL) for x in (box.left, box.right))
        bottom, top = (math.floor((y - free.bottom) / _CELL) for y in (box.bottom, box.top))
        taken[max(0, bottom) : max(0, top + 1), max(0, left) : max(0, right + 1)] = True
    best = (0, 0, 0, 0, 0)  # area, row, first column, width, height
    heights = [0] * columns
    for row in range(rows):
        heights = [0 if taken[row, c] else heights[c] + 1 for c in range(columns)]
        best = max(best, _under_skyline(heights, row))
    area, row, first, width, height = best
    if area == 0:
        return None
    x, y = free.left + first * _CELL, free.bottom + (row + 1) * _CELL
    return Box(x, y - height * _CELL, x + width * _CELL, y)


def _under_skyline(heights: list[int], row: int) -> tuple[int, int, int, int, int]:
    best = (0, row, 0, 0, 0)
    stack: list[int] = []
    for column in range(len(heights) + 1):
        height = heights[column] if column < len(heights) else 0
        while stack and heights[stack[-1]] >= height:
            tall = heights[stack.pop()]
            first = stack[-1] + 1 if stack else 0
            best = max(best, (tall * (column - first), row, first, column - first, tall))
        stack.append(column)
    return best


def room_near(free: Box, wide: float, high: float, obstacles: Sequence[Box], near: Point) -> Box | None:
    """An empty box so large, the nearest to a place; None where there is none."""
    columns, rows = int((free.width - wide) / _STEP), int((free.height - high) / _STEP)
    if min(columns, rows) < 0:
        return None
    boxes = [
        Box(x, y, x + wide, y + high)
        for x, y in product(
            (free.left + _STEP * n for n in range(columns + 1)), (free.bottom + _STEP * n for n in range(rows + 1))
        )
    ]
    boxes.sort(key=lambda box: (math.dist(box.centre, near), box))
    return next((box for box in boxes if not any(box.grown(_CLEAR).meets(other) for other in obstacles)), None)
