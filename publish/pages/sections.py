"""The piece cut through: sections from the right and from the front, hatched, with key heights and marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.key_heights import heights
from publish.drawing.balloons import BalloonLayout, BalloonWish
from publish.drawing.box import Box, Point, around
from publish.drawing.dimensioning import Layout, place
from publish.drawing.lettering import set_text
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.wishes import DimensionWish, Wish
from publish.edition import Edition, Leaf
from publish.section_drawing import balloons, hatching
from publish.section_views import SectionView
from publish.words.sections import section_title, section_words

MOST_HEIGHTS = 6  # in each section
ABOVE = 4.0  # mm from a view to its letters
SAID_HIGH = 7.0  # mm at the foot of the sheet for what is said of the hatching
SCALES_TRIED = 3
AIR = Box(26.0, 10.0, 26.0, 14.0)  # mm kept beside, under and over a view: for sizes, balloons and letters


def leaves(edition: Edition) -> list[Leaf]:
    """A drawing sheet for each section, A-A before B-B; none of a piece through which no plane cuts two parts."""
    told: list[float] = []
    return [_leaf(edition, section, told) for section in edition.drawn.sections]


@dataclass(frozen=True)
class _Drawn:
    """A section at one scale with all that is said about it."""

    scale: Scale
    placed: PlacedView
    layout: Layout
    title: tuple[Record, ...]
    balloons: BalloonLayout


def _leaf(edition: Edition, section: SectionView, told: list[float]) -> Leaf:
    area, style = edition.drawing_area, edition.style
    drawn = _drawn(edition, section, Box(area.left, area.bottom + SAID_HIGH, area.right, area.top), told)
    records = [
        *hatching(section.faces, section.hatch, drawn.placed, style.pens.dimension),
        *drawn.placed.records(style.pens),
        *drawn.layout.records(),
    ]
    unmarked = [wish.mark for wish in drawn.balloons.unplaced]
    said = set_text(section_words(edition, section, unmarked), area.left, area.bottom + 1.0, style.lettering.small)
    name = f"Section {section_title(section.plane.letter)}"
    info = edition.info(name, "WHOLE PIECE", scale=drawn.scale.name)
    body = (*records, *drawn.title, *drawn.balloons.records(style), *said)
    return Leaf(f"section-{section.plane.letter}", name, body, info, "drawing")


def _drawn(edition: Edition, section: SectionView, free: Box, told: list[float]) -> _Drawn:
    """The section at the largest standard scale at which every height and, if it can be, every mark finds its place."""
    wished = _wishes(edition, section, told)
    best: _Drawn | None = None
    tried = 0
    for scale in STANDARD:
        placed = _placed(section, scale, free)
        if placed is None:
            continue
        title = tuple(_title(edition, placed, section))
        layout = place(wished, [placed], free, [around(record.box for record in title)], edition.style)
        if layout.unplaced:
            continue
        balloons = _balloons(edition, section, placed, layout, title, free)
        if best is None or len(balloons.unplaced) < len(best.balloons.unplaced):
            best = _Drawn(scale, placed, layout, title, balloons)
        tried += 1
        if not balloons.unplaced or tried == SCALES_TRIED:
            break
    if best is None:
        raise RuntimeError(f"the heights of section {section.plane.letter} find no place on a sheet")
    return best


def _placed(section: SectionView, scale: Scale, free: Box) -> PlacedView | None:
    """The view in the middle of what is free, with air round it; None where it does not fit."""
    box, k = section.lines.box, scale.factor
    left, bottom = free.left + AIR.left, free.bottom + AIR.bottom
    spare_x = free.right - AIR.right - left - box.width * k
    spare_y = free.top - AIR.top - bottom - box.height * k
    if min(spare_x, spare_y) < 0:
        return None
    return PlacedView(
        "face", section.lines, left + spare_x / 2 - box.left * k, bottom + spare_y / 2 - box.bottom * k, k
    )


def _wishes(edition: Edition, section: SectionView, told: list[float]) -> list[Wish]:
    """Heights of what is cut, each in the first section that cuts it."""
    found: list[Wish] = []
    parts = [face.part for face in section.faces]
    for height in heights(edition.piece, parts, MOST_HEIGHTS, ("top", "bottom"), told):
        told.append(height.level)
        start, end = (section.lines.box.left, 0.0), (_edge(section, height.part, height.level), height.level)
        found.append(DimensionWish("face", start, end, "v", edition.number(height.level), "position"))
    return found


def _edge(section: SectionView, part: str, level: float) -> float:
    """The left end of a level side of what is cut of a part."""
    rings = [ring for face in section.faces if face.part.name == part for ring in face.rings]
    points = np.concatenate(rings)
    at = points[np.abs(points[:, 1] - level) < 0.1, 0]
    return float(at.min()) if len(at) else float(points[:, 0].min())


def _title(edition: Edition, placed: PlacedView, section: SectionView) -> list[Record]:
    """The letters of the plane over the view."""
    size = edition.style.lettering.heading
    return set_text(
        section_title(section.plane.letter), placed.box.centre[0], placed.box.top + ABOVE, size, "bold", "centre"
    )


def _balloons(
    edition: Edition, section: SectionView, placed: PlacedView, layout: Layout, title: Sequence[Record], free: Box
) -> BalloonLayout:
    """The mark of everything cut, once."""
    marks = {name: item.mark for item in edition.piece.items for name in (*item.parts, *item.mirrored)}
    spots: dict[str, tuple[float, Point]] = {}
    for face in section.faces:
        mark = marks[face.part.name]
        if face.deep > spots.get(mark, (0.0, (0.0, 0.0)))[0]:
            spots[mark] = face.deep, placed.at(face.deepest)
    wishes = [BalloonWish(mark, at) for mark, (_, at) in spots.items()]
    return balloons(wishes, placed, layout, around(record.box for record in title), free, edition.style)
