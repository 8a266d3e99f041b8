"""Finding room on a sheet for details: beside the views, with air round each for its own dimensions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from publish.drawing.box import Box, Point
from publish.drawing.details import Detail
from publish.drawing.lettering import set_text, text_width
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record, box_of
from publish.drawing.scales import Scale
from publish.drawing.style import HouseStyle
from publish.drawing.view import View

_STEP = 5.0  # mm between the places tried
_VIEW_AIR = (20.0, 24.0)  # mm kept beside, and above and below, a view with dimensions
_AIR = (17.0, 20.0)  # the same round a detail
_TITLE_UP = 2.2  # mm from the frame to the title over it


@dataclass(frozen=True)
class SeatedDetail:
    """A detail set down on the sheet."""

    detail: Detail
    scale: Scale
    placed: PlacedView

    def title(self, style: HouseStyle) -> list[Record]:
        """Its name and scale, over its frame."""
        box = self.placed.box
        return set_text(_title(self.detail, self.scale), box.left, box.top + _TITLE_UP, style.lettering.callout, "bold")

    def title_box(self, style: HouseStyle) -> Box:
        """What the title takes of the sheet."""
        return box_of(self.title(style)).grown(0.8)


def _title(detail: Detail, scale: Scale) -> str:
    return f"{detail.name} ({scale.name})"


def seated(
    wanted: Sequence[Detail],
    views: dict[str, View],
    placed: Sequence[PlacedView],
    free: Box,
    taken: Sequence[Box],
    style: HouseStyle,
) -> tuple[list[SeatedDetail], list[Detail]]:
    """The details set down in `free`, clear of `placed` and `taken`, near the places they show; and those left over."""
    there = {view.key: view for view in placed}
    obstacles = [*(view.box.grown(*_VIEW_AIR) for view in placed)]
    done: list[SeatedDetail] = []
    left: list[Detail] = []
    for detail in wanted:
        near = there[detail.of].at(detail.shown.centre) if detail.of in there else (free.left, free.top)
        seat = _seat(detail, views, near, obstacles, free, taken, style)
        if seat is None:
            left.append(detail)
            continue
        done.append(seat)
        obstacles.append(seat.placed.box.grown(*_AIR))
    return done, left


def _seat(
    detail: Detail,
    views: dict[str, View],
    near: Point,
    obstacles: Sequence[Box],
    free: Box,
    taken: Sequence[Box],
    style: HouseStyle,
) -> SeatedDetail | None:
    for scale in detail.scales:
        width, height = detail.frame.width * scale.factor, detail.frame.height * scale.factor
        wide = max(width, text_width(_title(detail, scale), style.lettering.callout, "bold"))
        for x, y in _places(free, near, wide, height):
            box = Box(x, y, x + wide, y + height)
            if any(box.grown(*_AIR).meets(o) for o in taken) or any(box.grown(2.0).meets(o) for o in obstacles):
                continue
            k = scale.factor
            placed = PlacedView(
                detail.key, detail.view(views), x - detail.frame.left * k, y - detail.frame.bottom * k, k
            )
            return SeatedDetail(detail, scale, placed)
    return None


def _places(free: Box, near: Point, width: float, height: float) -> list[Point]:
    """Corners of boxes that lie in `free` with their air, the nearest first."""
    across = free.width - width - 2 * _AIR[0]
    up = free.height - height - 2 * _AIR[1]
    if across < 0 or up < 0:
        return []
    corners = product(range(int(across / _STEP) + 1), range(int(up / _STEP) + 1))
    found = [(free.left + _AIR[0] + i * _STEP, free.bottom + _AIR[1] + j * _STEP) for i, j in corners]
    return sorted(found, key=lambda c: (math.dist((c[0] + width / 2, c[1] + height / 2), near), c))
