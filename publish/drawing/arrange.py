"""Setting out the views of one part, in line with each other, with room for their dimensions.

Third angle puts a view on the side it is seen from, first angle on the far side (ISO 5456-2, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import Literal

from publish.drawing.box import Box
from publish.drawing.placed import PlacedView
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.style import Projection
from publish.drawing.view import Direction, View


@dataclass(frozen=True)
class PartViews:
    """The views of a part: its face, one of its edges and one of its ends, as seen from the sides named."""

    face: View
    edge: View | None = None
    end: View | None = None
    edge_from: Literal["above", "below"] = "above"
    end_from: Literal["right", "left"] = "right"


@dataclass(frozen=True)
class Room:
    """Paper kept for dimensions round and between the views, mm."""

    left: float = 24.0
    right: float = 24.0
    below: float = 28.0
    above: float = 24.0
    between_across: float = 34.0
    between_up: float = 42.0


ROOMY = Room()
SNUG = Room(left=15.0, right=17.0, below=20.0, above=16.0, between_across=20.0, between_up=28.0)
_SNUG_HANDICAP = 0.8
"""Less air is worth it for a scale a quarter larger; for less, more air reads better."""
LEANS = ((0.5, 0.5), (0.5, 1.0), (0.5, 0.0), (0.0, 0.5), (1.0, 0.5), (0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
"""The middle, then to one side, so that there is room for details on the other."""


_ACROSS: dict[Projection, dict[str, str]] = {
    "third": {"right": "right", "left": "left", "above": "above", "below": "below"},
    "first": {"right": "left", "left": "right", "above": "below", "below": "above"},
}


def _like(a: Direction, b: Direction) -> bool:
    return all(abs(p - q) < 1e-6 for p, q in zip(a, b, strict=True))


def _placed(key: str, view: View, left: float, bottom: float, scale: float) -> PlacedView:
    return PlacedView(key, view, left - view.box.left * scale, bottom - view.box.bottom * scale, scale)


def arrange(
    views: PartViews,
    scale: Scale,
    free: Box,
    projection: Projection,
    room: Room = ROOMY,
    lean: tuple[float, float] = (0.5, 0.5),
) -> tuple[PlacedView, ...] | None:
    """The views ("face", "edge", "end") set out in the middle of `free` at `scale`; None where they do not fit.

    `lean`: the shares of the air over that go to their left and below them.

    The edge view keeps in line with the face across the page, the end view up the page: origin over origin where both
    look along the same axis, else box against box.
    """
    k = scale.factor
    face, edge, end = views.face, views.edge, views.end
    edge_side = _ACROSS[projection][views.edge_from] if edge else ""
    end_side = _ACROSS[projection][views.end_from] if end else ""
    edge_width, edge_height = (edge.box.width * k, edge.box.height * k) if edge else (0.0, 0.0)
    end_width = end.box.width * k if end else 0.0
    column = max(face.box.width * k, edge_width)
    row = max(face.box.height * k, end.box.height * k if end else 0.0)
    width = column + (end_width + room.between_across if end else 0.0)
    height = row + (edge_height + room.between_up if edge else 0.0)
    spare_x = free.width - room.left - room.right - width
    spare_y = free.height - room.below - room.above - height
    if spare_x < -1e-9 or spare_y < -1e-9:
        return None
    x = free.left + room.left + spare_x * lean[0]
    y = free.bottom + room.below + spare_y * lean[1]
    column_x = x + (end_width + room.between_across if end_side == "left" else 0.0)
    row_y = y + (edge_height + room.between_up if edge_side == "below" else 0.0)
    set_out = [_placed("face", face, column_x, row_y, k)]
    if edge:
        edge_y = y if edge_side == "below" else row_y + row + room.between_up
        set_out.append(_in_line_across(set_out[0], _placed("edge", edge, column_x, edge_y, k)))
    if end:
        end_x = x if end_side == "left" else column_x + column + room.between_across
        set_out.append(_in_line_up(set_out[0], _placed("end", end, end_x, row_y, k)))
    return tuple(set_out)


def _in_line_across(face: PlacedView, other: PlacedView) -> PlacedView:
    if not _like(face.view.axes.right, other.view.axes.right):
        return other
    return PlacedView(other.key, other.view, face.x, other.y, other.scale)


def _in_line_up(face: PlacedView, other: PlacedView) -> PlacedView:
    if not _like(face.view.axes.up, other.view.axes.up):
        return other
    return PlacedView(other.key, other.view, other.x, face.y, other.scale)


def tries() -> list[tuple[Scale, Room]]:
    """Scales and air round the views in the order they are tried."""
    worth = ((s.factor * (_SNUG_HANDICAP if r is SNUG else 1.0), s, r) for s, r in product(STANDARD, (ROOMY, SNUG)))
    return [(s, r) for _, s, r in sorted(worth, key=lambda w: -w[0])]
