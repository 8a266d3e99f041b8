"""The maker's logo and licence line on a sheet."""

from __future__ import annotations

from publish.drawing.box import Box
from publish.drawing.lettering import fit, set_text
from publish.drawing.records import Anchor, Image, Record
from publish.drawing.style import GREY, HouseStyle, Paper, points

BASELINE = 7.1  # mm from the lower edge of the paper: below every frame, within reach of common printers
_SHARE: dict[Anchor, float] = {"left": 0.0, "centre": 0.5, "right": 1.0}


def licence_line(paper: Paper, style: HouseStyle) -> list[Record]:
    """The licence at the very foot of a sheet; nothing where the maker says none."""
    edge = paper.box.grown(-style.spacing.frame_margin - 2.0)
    words, size = fit(style.imprint.licence, edge.width * 0.72, style.lettering.caption, points(5.5))
    return set_text(words, edge.left, BASELINE, size, colour=GREY)


def logo(style: HouseStyle, box: Box, anchor: Anchor = "left") -> Image | None:
    """The logo as large as fits in a box, in the middle of its height; None where the maker has none."""
    picture = style.imprint.logo
    if picture is None:
        return None
    width, height = picture.within(box.width, box.height)
    x = box.left + (box.width - width) * _SHARE[anchor]
    return Image(x, box.centre[1] - height / 2, width, height, picture.columns, picture.rows, picture.pixels)
