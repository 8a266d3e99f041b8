"""The drawing of one part: its views at the scale that suits, their details, and all that is said about them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from publish.drawing.arrange import LEANS, ROOMY, SNUG, PartViews, Room, arrange, tries
from publish.drawing.box import Box
from publish.drawing.breaks import FEW, MOST, broken
from publish.drawing.clipping import framed
from publish.drawing.detail_room import SeatedDetail, seated
from publish.drawing.details import Detail, details
from publish.drawing.dimensioning import Layout, place
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.style import HOUSE, HouseStyle, Projection
from publish.drawing.wishes import DimensionWish, Wish

_MOST_TRIED = 6
_WORTH_BREAKING = 1.8
"""Times as large; a break takes something from the look of a part, so it has to give more."""
_LARGE = 0.35
"""A part that can be drawn at a larger scale than this is not broken."""


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


def draw_part(
    views: PartViews,
    wishes: Sequence[Wish],
    free: Box,
    projection: Projection,
    taken: Sequence[Box] = (),
    style: HouseStyle = HOUSE,
    letters: Sequence[str] = (),
) -> PartDrawing | None:
    """The part as it is, or broken where that lets it be drawn much larger with all that is wished on one sheet.

    None when the views fit at no standard scale.
    """
    whole = _whole(views, wishes, free, projection, taken, style, letters)
    if whole is None:
        return None
    if whole.scale.factor > _LARGE or not any(_tells_more(wish) for wish in wishes):
        return whole
    tried = 0
    before: list[tuple[Scale, Room, PartViews]] = []
    many = (FEW, MOST) if whole.details or _over(whole) != (0, 0) else (FEW,)
    for most, scale, room in product(many, STANDARD, (ROOMY, SNUG)):
        if scale.factor < _WORTH_BREAKING * whole.scale.factor:
            continue
        across = 0.0 if views.end is None else views.end.box.width * scale.factor + room.between_across
        less = broken(views, wishes, scale.factor, free.width - room.left - room.right - across, most)
        if less is None or (scale, room, less.views) in before:
            continue
        before.append((scale, room, less.views))
        drawing = _drawn(less.views, less.wishes, scale, room, free, projection, taken, style, letters)
        if drawing is not None and _over(drawing) == (0, 0):
            return drawing
        tried += drawing is not None
        if tried == _MOST_TRIED:
            break
    return whole


def _tells_more(wish: Wish) -> bool:
    """Whether it says more of a part than how large it is."""
    return not (isinstance(wish, DimensionWish) and wish.role == "overall")


def _whole(
    views: PartViews,
    wishes: Sequence[Wish],
    free: Box,
    projection: Projection,
    taken: Sequence[Box],
    style: HouseStyle,
    letters: Sequence[str],
) -> PartDrawing | None:
    """The part at the largest standard scale at which every wish finds a place.

    What is too small there goes into details, called by `letters` (none where there are no letters). Where nothing
    tried has a place for all, the drawing that leaves least unplaced, which it names. None when the views themselves
    fit at no standard scale.
    """
    best: PartDrawing | None = None
    tried = 0
    for scale, room in tries():
        drawing = _drawn(views, wishes, scale, room, free, projection, taken, style, letters)
        if drawing is None:
            continue
        if best is None or _over(drawing) < _over(best):
            best = drawing
        tried += 1
        if _over(drawing) == (0, 0) or tried == _MOST_TRIED:
            break
    if best is None and letters:  # no room for the frames: then all is said about the views
        return _whole(views, wishes, free, projection, taken, style, ())
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
