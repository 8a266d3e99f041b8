"""The section of a joint in its cell: at a standard scale, hatched, with the sizes that are seen true in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from model.joint_sections import SizeShown
from model.joints_alike import AlikeJoints
from publish.drawing.balloons import BalloonWish
from publish.drawing.box import Box, around
from publish.drawing.dimensioning import place
from publish.drawing.lettering import set_text
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.scales import STANDARD, Scale
from publish.drawing.wishes import DimensionWish, Wish
from publish.edition import Edition
from publish.joint_sections import JointSectionView
from publish.part_wishes import printed
from publish.printed_places import printed_places
from publish.section_drawing import balloons, hatching
from publish.size_trees import not_twice, rings_opened
from publish.words.joint_details import section_caption

AIR = (9.0, 8.0)  # mm kept beside, and over and under the view at the least
CAPTION = 7.0  # mm at the foot, for what the section is called
SCALES_TRIED = 4


@dataclass(frozen=True)
class _Tried:
    """A section at one scale, and how much that was wished has no place on it."""

    missing: int
    records: tuple[Record, ...]


def section_records(edition: Edition, alike: AlikeJoints, view: JointSectionView, free: Box) -> list[Record]:
    """The section as large as leaves its marks and what is cut their place.

    Where something lies on the part that takes the other is left out for a larger scale: its own sheet says it. What
    has no place at any scale tried is told in the words beside.
    """
    every, least = _wishes(edition, view, view.section.sizes), _wishes(edition, view, _at_the_joint(view))
    done: list[_Tried] = []
    fitting = ((scale, placed) for scale in STANDARD if (placed := _placed(view, scale, free)) is not None)
    for scale, placed in islice(fitting, SCALES_TRIED):
        for asked in (every, least):
            done.append(_drawn(edition, alike, view, asked, scale, placed, free))
            if not done[-1].missing:
                return list(done[-1].records)
    if not done:
        raise RuntimeError("the section of a joint fits its cell at no standard scale")
    return list(min(done, key=lambda one: one.missing).records)


def _drawn(
    edition: Edition,
    alike: AlikeJoints,
    view: JointSectionView,
    asked: Sequence[Wish],
    scale: Scale,
    placed: PlacedView,
    free: Box,
) -> _Tried:
    style = edition.style
    letters = style.lettering
    caption = set_text(section_caption(scale), free.centre[0], free.bottom + 1.2, letters.callout, "bold", "centre")
    taken = around(record.box for record in caption)
    layout = place(asked, [placed], free, [taken], style)
    marks = balloons(_marks(alike, view, placed), placed, layout, taken, free, style)
    records = (
        *hatching(view.section.cuts, view.hatch, placed, style.pens.dimension),
        *placed.records(style.pens),
        *layout.records(),
        *marks.records(style),
        *caption,
    )
    return _Tried(len(layout.unplaced) + len(marks.unplaced), records)


def _placed(view: JointSectionView, scale: Scale, free: Box) -> PlacedView | None:
    """The view in the middle of what is free, over its caption; None where it does not fit."""
    box, k = view.lines.box, scale.factor
    x, y = free.centre[0], (free.bottom + CAPTION + free.top) / 2
    if box.width * k > free.width - 2 * AIR[0] or box.height * k > free.height - CAPTION - 2 * AIR[1]:
        return None
    return PlacedView("face", view.lines, x - box.centre[0] * k, y - box.centre[1] * k, k)


def _at_the_joint(view: JointSectionView) -> list[SizeShown]:
    """Sizes without the places on the part that takes the other."""
    taker = view.section.cuts[1].name
    return [
        size for size in view.section.sizes if size.part != taker or size.size is None or size.size.role != "position"
    ]


def _wishes(edition: Edition, view: JointSectionView, sizes: Sequence[SizeShown]) -> list[DimensionWish]:
    """Every size that is seen true, once."""
    found: list[DimensionWish] = []
    for size in sizes:
        part = edition.piece.parts[size.part]
        text = edition.number(size.value)
        if size.size is not None:
            text = printed(edition, printed_places(part, edition.units), size.size)
        (x0, y0), (x1, y1) = size.start.tolist(), size.end.tolist()
        role = "size" if size.size is None else size.size.role
        direction = "v" if size.axis else "h"
        found.append(DimensionWish("face", (x0, y0), (x1, y1), direction, text, role, size.part))  # type: ignore[arg-type]
    return rings_opened(not_twice(found))


def _marks(alike: AlikeJoints, view: JointSectionView, placed: PlacedView) -> list[BalloonWish]:
    """The mark of each member; loose pieces have none."""
    members = view.section.cuts[:2]
    return [BalloonWish(mark, placed.at(cut.deepest)) for mark, cut in zip(alike.pairs[0], members, strict=True)]
