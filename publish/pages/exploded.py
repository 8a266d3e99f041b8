"""The piece taken apart, everything in it with its mark and number; then each sub-assembly taken apart by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from publish.drawing.balloons import BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box, Point, Segment
from publish.drawing.cells import Grid
from publish.drawing.lettering import set_text, wrap
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.table import Column, Row, TablePart, set_table
from publish.edition import Edition, Leaf
from publish.exploded_views import ExplodedView, Shown
from publish.pictures import set_pictorial
from publish.shade import anchor
from publish.words.names import capital, in_figures, item_name
from publish.words.sub_assemblies import sub_assembly_name

LIST_WIDTH = 66.0
MARGIN = 11.0  # mm kept round the picture for balloons
CLEAR = 4.0  # mm between picture and list
SMALLER = tuple(1 - 0.04 * n for n in range(16))  # sizes of the picture tried, of the largest
ON_A_SHEET = 2  # sub-assemblies
LONG_LIST = 8  # marks of a sub-assembly from which on it has a sheet of its own: a long list leaves little for pictures
INDENT = 8.0  # mm from the number of a sub-assembly to its name


def leaves(edition: Edition) -> list[Leaf]:
    """A sheet for the piece, the picture as large as leaves room for the list and for every balloon; then the rest."""
    whole, *groups = edition.drawn.apart
    info = edition.info("Exploded view", "WHOLE PIECE", quantity=in_figures(len(edition.piece.parts), "part"))
    made = [Leaf("exploded", "Exploded view", tuple(_with_list(edition, whole, edition.drawing_area)), info, "drawing")]
    return made + [_groups(edition, page, some) for page, some in enumerate(_sheets(groups), start=1)]


def _sheets(groups: Sequence[ExplodedView]) -> list[list[ExplodedView]]:
    """Sub-assemblies by sheet, in their order."""
    sheets: list[list[ExplodedView]] = []
    for view in groups:
        last = sheets[-1] if sheets else []
        if last and len(last) < ON_A_SHEET and not any(len(one.shown) >= LONG_LIST for one in (*last, view)):
            last.append(view)
        else:
            sheets.append([view])
    return sheets


def _groups(edition: Edition, page: int, some: Sequence[ExplodedView]) -> Leaf:
    """Sub-assemblies side by side, each under its number and name, its list in a corner of its own."""
    grid = Grid(edition.drawing_area, len(some), 1)
    letters = edition.style.lettering
    records: list[Record] = grid.rules(len(some), edition.style.pens.rule)
    for n, view in enumerate(some):
        box, group = grid.cell(n), view.group
        assert group is not None
        times = f" ({len(group.copies)})" if len(group.copies) > 1 else ""
        title = wrap(sub_assembly_name(edition, group) + times, box.width - INDENT, letters.body, "bold")
        y = box.top - letters.heading * 0.8
        records += set_text(str(group.number), box.left, y, letters.heading, "bold")
        for line in title:
            records += set_text(line, box.left + INDENT, y, letters.body, "bold")
            y -= letters.body * 1.2
        records += _with_list(edition, view, Box(box.left, box.bottom, box.right, y - CLEAR / 2))
    numbers = [str(view.group.number) for view in some if view.group is not None]
    name = f"Sub-assemblies {' and '.join(numbers)}" if len(numbers) > 1 else f"Sub-assembly {numbers[0]}"
    info = edition.info(name, "EXPLODED VIEWS")
    return Leaf(f"exploded-{page}", name, tuple(records), info, "drawing")


def _with_list(edition: Edition, view: ExplodedView, area: Box) -> list[Record]:
    for records, placed, occupied, corner in _ways(edition, view, area):
        balloons = _balloons(edition, view, placed, occupied, corner)
        if balloons is not None:
            return [*records, *balloons, *_list(edition, view, corner).records]
    raise RuntimeError("an exploded view leaves no room for its list and its balloons")


def _ways(edition: Edition, view: ExplodedView, area: Box) -> Iterator[tuple[list[Record], PlacedView, Occupied, Box]]:
    """The picture over all the area, beside or over a strip for the list, the largest first; a corner is free."""
    high = _list_height(edition, view, area)
    beside = Box(area.left, area.bottom, area.right - LIST_WIDTH - CLEAR, area.top)
    over = Box(area.left, area.bottom + high + CLEAR, area.right, area.top)
    rooms = [room for room in (area, beside, over) if min(room.width, room.height) > 3 * MARGIN]
    largest = [(room, _picture(edition, view, room, 1.0)[1].scale) for room in rooms]
    sizes = [(scale * smaller, smaller, room) for room, scale in largest for smaller in SMALLER]
    for _, smaller, room in sorted(sizes, key=lambda size: -size[0]):
        records, placed = _picture(edition, view, room, smaller)
        occupied = _occupied(view, area, placed)
        corner = _free_corner(high, area, occupied)
        if corner is not None:
            yield records, placed, occupied, corner


def _picture(edition: Edition, view: ExplodedView, area: Box, smaller: float) -> tuple[list[Record], PlacedView]:
    room = area.grown(-MARGIN)
    x, y = room.centre
    wide, high = room.width * smaller / 2, room.height * smaller / 2
    return set_pictorial(view.picture, Box(x - wide, y - high, x + wide, y + high), edition.style)


def _occupied(view: ExplodedView, area: Box, placed: PlacedView) -> Occupied:
    """Where the parts of the picture, and the guide lines between them, are on the sheet."""
    picture = view.picture
    left, bottom = placed.at((picture.box.left, picture.box.bottom))
    right, top = placed.at((picture.box.right, picture.box.top))
    occupied = Occupied(area)
    occupied.add_grid(np.flipud(picture.tint.ids >= 0)[::4, ::4], Box(left, bottom, right, top))
    for a, b in picture.guides:
        occupied.add_line(Segment(*placed.at(a), *placed.at(b)))
    return occupied


def _list_height(edition: Edition, view: ExplodedView, area: Box) -> float:
    part = _list(edition, view, Box(0.0, 0.0, LIST_WIDTH, area.height))
    if part.rest or part.box is None:
        raise RuntimeError("the parts list is longer than the sheet")
    return part.box.height


def _free_corner(high: float, area: Box, occupied: Occupied) -> Box | None:
    """The first corner with room for the parts list."""
    for right in (True, False):
        for upper in (True, False):
            x = area.right - LIST_WIDTH if right else area.left
            y = area.top if upper else area.bottom + high
            box = Box(x, y - high, x + LIST_WIDTH, y)
            if occupied.empty(box.grown(CLEAR)):
                return box
    return None


def _balloons(
    edition: Edition, view: ExplodedView, placed: PlacedView, occupied: Occupied, corner: Box
) -> list[Record] | None:
    """Every balloon; None where one finds no place."""
    wishes = []
    for shown in view.shown:
        at = _seen_best(view, shown)
        if at is not None:
            wishes.append(BalloonWish(shown.mark, placed.at(at), f"×{shown.count}" if shown.count > 1 else ""))
    layout = place_balloons(wishes, occupied, (corner.grown(CLEAR / 2),), edition.style)
    return None if layout.unplaced else layout.records(edition.style)


def _seen_best(view: ExplodedView, shown: Shown) -> Point | None:
    """A spot in the part, of those shown by this balloon, of which most is seen."""
    picture = view.picture
    numbers = [picture.names.index(name) for name in shown.parts]
    best = max(numbers, key=lambda number: (picture.tint.count(number), -number))
    return anchor(picture.tint, best)


def _list(edition: Edition, view: ExplodedView, area: Box) -> TablePart:
    columns = (Column("Mark", style="bold"), Column("Part", stretch=1.0), Column("No.", "right"))
    rows = [_row(edition, view, shown) for shown in view.shown]
    return set_table(columns, rows, Box(area.left, area.bottom - 1.0, area.right, area.top), style=edition.style)


def _row(edition: Edition, view: ExplodedView, shown: Shown) -> Row:
    if shown.group is not None:
        sheets = _sheets(edition.drawn.apart[1:])
        page = next(n for n, some in enumerate(sheets, start=1) if any(one.group == shown.group for one in some))
        return Row((shown.mark, sub_assembly_name(edition, shown.group), str(shown.count)), to=f"exploded-{page}")
    item = next(item for item in edition.piece.items if item.mark == shown.mark)
    mirrored = sum(name in item.mirrored for name in shown.parts)
    both = f"{shown.count - mirrored} + {mirrored} mirrored" if 0 < mirrored < shown.count else str(shown.count)
    return Row((shown.mark, capital(item_name(edition.piece, item)), both), to=edition.part_sheet(item))
