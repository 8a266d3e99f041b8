"""Setting out the views of one part, in line with each other, with room for their dimensions.

Third angle puts a view on the side it is seen from, first angle on the far side (ISO 5456-2, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal

from publish.drawing.box import Box
from publish.drawing.clipping import framed
from publish.drawing.detail_room import SeatedDetail, seated
from publish.drawing.details import Detail, details
from publish.drawing.dimensioning import Layout, place
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.style import HOUSE, HouseStyle, Projection
from publish.drawing.view import Direction, View
from publish.drawing.wishes import Wish

_MOST_TRIED = 6


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


@dataclass(frozen=True)
class PartDrawing:
    """Views set out at a scale, with what was wished about them.

    `views` are the details too; `unplaced` the wishes for which there was no place, as they were made; `waiting` the
    details for which there was no room.
    """

    scale: Scale
    views: tuple[PlacedView, ...]
    layout: Layout
    unplaced: tuple[Wish, ...]
    details: tuple[SeatedDetail, ...] = ()
    waiting: tuple[Detail, ...] = ()

    def records(self) -> list[Record]:
        """Everything drawn."""
        style = self.layout.style
        drawn = [r for view in self.views for r in view.records(style.pens)]
        return [*drawn, *self.layout.records(), *(r for seat in self.details for r in seat.title(style))]

    def boxes(self) -> list[Box]:
        """What it takes of the sheet."""
        titles = [seat.title_box(self.layout.style) for seat in self.details]
        return [*(view.box.grown(3.0) for view in self.views), *self.layout.boxes(), *titles]


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


def _tries() -> list[tuple[Scale, Room]]:
    """Scales and air round the views in the order they are tried."""
    worth = ((s.factor * (_SNUG_HANDICAP if r is SNUG else 1.0), s, r) for s, r in product(STANDARD, (ROOMY, SNUG)))
    return [(s, r) for _, s, r in sorted(worth, key=lambda w: -w[0])]


def draw_part(
    views: PartViews,
    wishes: Sequence[Wish],
    free: Box,
    projection: Projection,
    taken: Sequence[Box] = (),
    style: HouseStyle = HOUSE,
    letters: Sequence[str] = (),
) -> PartDrawing | None:
    """The part at the largest standard scale at which every wish finds a place.

    What is too small there goes into details, called by `letters` (none where there are no letters). Where nothing
    tried has a place for all, the drawing that leaves least unplaced, which it names. None when the views themselves
    fit at no standard scale.
    """
    best: PartDrawing | None = None
    tried = 0
    for scale, room in _tries():
        drawing = _drawn(views, wishes, scale, room, free, projection, taken, style, letters)
        if drawing is None:
            continue
        if best is None or _over(drawing) < _over(best):
            best = drawing
        tried += 1
        if _over(drawing) == (0, 0) or tried == _MOST_TRIED:
            break
    if best is None and letters:  # no room for the frames: then all is said about the views
        return draw_part(views, wishes, free, projection, taken, style)
    return best


def _over(drawing: PartDrawing) -> tuple[int, int]:
    return len(drawing.unplaced), len(drawing.waiting)


def _drawn(
    views: PartViews,
    wishes: Sequence[Wish],
    scale: Scale,
    room: Room,
    free: Box,
    projection: Projection,
    taken: Sequence[Box],
    style: HouseStyle,
    letters: Sequence[str],
) -> PartDrawing | None:
    """The part at one scale, its views to the side on which most details find room; without any where one would lack
    its name.
    """
    best: tuple[tuple[PlacedView, ...], list[SeatedDetail], list[Detail]] | None = None
    for lean in LEANS:
        set_out = arrange(views, scale, free, projection, room, lean)
        if set_out is None or any(v.box.meets(t) for v in set_out for t in taken):
            continue
        wanted = details(wishes, set_out, letters)
        if any(v.box.meets(t) for v in _marked(set_out, wanted) for t in taken):
            continue
        seats, waiting = seated(wanted, {v.key: v.view for v in set_out}, set_out, free, taken, style)
        if best is None or len(waiting) < len(best[2]):
            best = set_out, seats, waiting
        if not waiting:
            break
    if best is None:
        return None
    drawing = _with_details(scale, wishes, *best, free, taken, style)
    if drawing is None:
        layout = place(wishes, best[0], free, taken, style)
        return PartDrawing(scale, best[0], layout, layout.unplaced)
    return drawing


def _marked(set_out: Sequence[PlacedView], every: Sequence[Detail]) -> list[PlacedView]:
    """The views with the frames of details on them."""
    return [
        PlacedView(v.key, framed(v.view, [d.shown for d in every if d.of == v.key]), v.x, v.y, v.scale) for v in set_out
    ]


def _with_details(
    scale: Scale,
    wishes: Sequence[Wish],
    set_out: Sequence[PlacedView],
    seats: Sequence[SeatedDetail],
    waiting: Sequence[Detail],
    free: Box,
    taken: Sequence[Box],
    style: HouseStyle,
) -> PartDrawing | None:
    """The views with frames where details are taken from, and the details; None where the name of one has no place."""
    every = [*(seat.detail for seat in seats), *waiting]
    gone = {id(wish) for detail in every for wish in detail.before}
    marked = _marked(set_out, every)
    pointers = [detail.pointer() for detail in every]
    asked = [*(wish for wish in wishes if id(wish) not in gone), *pointers]
    placed = (*marked, *(seat.placed for seat in seats))
    layout, unplaced = _placed_with(seats, asked, placed, free, taken, style)
    if any(wish is pointer for wish in unplaced for pointer in pointers):
        return None
    return PartDrawing(scale, placed, layout, unplaced, tuple(seats), tuple(waiting))


def draw_details(
    wanted: Sequence[Detail], views: PartViews, scale: Scale, free: Box, taken: Sequence[Box], style: HouseStyle
) -> PartDrawing:
    """Details by themselves, as many as find room on a sheet; `scale` is that of the views they are taken from."""
    found = {"face": views.face, "edge": views.edge, "end": views.end}
    every = {key: view for key, view in found.items() if view is not None}
    seats, waiting = seated(wanted, every, (), free, taken, style)
    placed = tuple(seat.placed for seat in seats)
    layout, unplaced = _placed_with(seats, (), placed, free, taken, style)
    return PartDrawing(scale, placed, layout, unplaced, tuple(seats), tuple(waiting))


def _placed_with(
    seats: Sequence[SeatedDetail],
    asked: Sequence[Wish],
    placed: Sequence[PlacedView],
    free: Box,
    taken: Sequence[Box],
    style: HouseStyle,
) -> tuple[Layout, tuple[Wish, ...]]:
    """All wishes about views and details set down, and those without a place as they were before they moved."""
    moved = [pair for seat in seats for pair in zip(seat.detail.wishes, seat.detail.before, strict=True)]
    titles = [seat.title_box(style) for seat in seats]
    layout = place([*asked, *(wish for wish, _ in moved)], placed, free, (*taken, *titles), style)
    before = {id(wish): old for wish, old in moved}
    return layout, tuple(before.get(id(wish), wish) for wish in layout.unplaced)
