"""What every sheet carries round its content: a frame with a title block, or a header and footer on pages of text.

Fields after ISO 7200 as far as a workshop drawing needs them (title, mark as identification, sheet, revision, legal
owner) and the trade's own: quantity, material, scale, projection.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from publish.drawing.box import Box
from publish.drawing.imprint import licence_line, logo
from publish.drawing.lettering import fit, set_text, text_width
from publish.drawing.projection_symbol import projection_symbol
from publish.drawing.records import Circle, Line, Record, rectangle
from publish.drawing.style import BLACK, GREY, HOUSE, HouseStyle, Paper, Projection, points
from publish.drawing.typeface import CAP_HEIGHT, FaceStyle

_INSET = 1.9
LOGO_WIDTH, LOGO_HEIGHT = 30.0, 9.0  # mm at most
_PROJECTION_WORDS: dict[Projection, str] = {"third": "Third angle", "first": "First angle"}


@dataclass(frozen=True)
class SheetInfo:
    """What a title block says. Empty strings leave their place blank; `mark` is drawn as a balloon at the top right."""

    title: str
    project: str
    sheet: int
    sheets: int
    mark: str = ""
    quantity: str = ""
    material: str = ""
    scale: str = ""
    units: str = ""
    projection: Projection | None = None
    revision: str = ""
    maker: str = ""
    caption: str = "PART"


@dataclass(frozen=True)
class Framed:
    """The records of a sheet's surround, and the area left for its content, mm."""

    records: tuple[Record, ...]
    free: Box
    obstacles: tuple[Box, ...] = ()


@dataclass(frozen=True)
class _Cell:
    """One field of the title block: its caption, main line, second line under it, and share of the width."""

    caption: str
    value: Callable[[SheetInfo], str]
    under: Callable[[SheetInfo], str]
    share: float
    size_pt: float = 11.0
    face: FaceStyle = "semibold"


def _nothing(_: SheetInfo) -> str:
    return ""


_CELLS = (
    _Cell("", lambda i: i.title, _nothing, 66.0, 14.0, "bold"),
    _Cell("QUANTITY", lambda i: i.quantity, _nothing, 27.0),
    _Cell("MATERIAL", lambda i: i.material, _nothing, 44.0),
    _Cell("SCALE", lambda i: i.scale, lambda i: i.units, 27.0),
    _Cell("PROJECTION", _nothing, _nothing, 27.0),
    _Cell("PROJECT", lambda i: i.project, lambda i: i.maker, 43.0),
    _Cell("REVISION", lambda i: i.revision, _nothing, 15.0),
    _Cell("SHEET", lambda i: f"{i.sheet} / {i.sheets}", _nothing, 16.0),
)


def _cell_records(cell: _Cell, info: SheetInfo, box: Box, style: HouseStyle) -> list[Record]:
    small, room = style.lettering.caption, box.width - 2 * _INSET
    x = box.left + _INSET
    under = cell.under(info)
    records = set_text(cell.caption or info.caption, x, box.top - _INSET - CAP_HEIGHT * small, small, colour=GREY)
    value, size = fit(cell.value(info), room, points(cell.size_pt), points(7.0), cell.face)
    baseline = box.bottom + (6.3 if under else 5.0)
    colour = BLACK if cell.caption else style.colours.headings
    records += set_text(value, x, baseline, size, cell.face, colour=colour)
    if under:
        words, size = fit(under, room, points(7.5), points(5.5))
        records += set_text(words, x, box.bottom + 2.2, size, colour=GREY)
    return records


def _projection_records(info: SheetInfo, box: Box) -> list[Record]:
    if info.projection is None:
        return []
    x = box.centre[0]
    words = _PROJECTION_WORDS[info.projection]
    return [
        *projection_symbol(x, box.bottom + 8.1, 4.6, info.projection),
        *set_text(words, x, box.bottom + 1.9, points(7.0), anchor="centre", colour=GREY),
    ]


def title_block(info: SheetInfo, box: Box, style: HouseStyle = HOUSE) -> list[Record]:
    """The fields of the title block inside `box`, with the lines between them."""
    total = sum(c.share for c in _CELLS)
    records: list[Record] = [Line(box.left, box.top, box.right, box.top, style.pens.frame)]
    left = box.left
    room = Box(box.left + _INSET, box.bottom + _INSET, box.left + _INSET + LOGO_WIDTH, box.top - _INSET)
    picture = logo(style, room)
    if picture is not None:
        left = picture.box.right + _INSET
        records += [picture, Line(left, box.bottom, left, box.top, style.pens.cell)]
    width = box.right - left
    for cell in _CELLS:
        right = left + width * cell.share / total
        place = Box(left, box.bottom, right, box.top)
        records += _cell_records(cell, info, place, style)
        if cell.caption == "PROJECTION":
            records += _projection_records(info, place)
        if right < box.right - 0.1:
            records.append(Line(right, box.bottom, right, box.top, style.pens.cell))
        left = right
    return records


def _mark_balloon(mark: str, inside: Box, style: HouseStyle) -> tuple[list[Record], Box]:
    """The part's mark in a circle in the top right corner, and the corner it takes."""
    size = points(13.0)
    radius = max(4.6, text_width(mark, size, "bold") / 2 + 1.6)
    x, y = inside.right - radius, inside.top - radius
    records = [
        Circle(x, y, radius, style.pens.balloon),
        *set_text(mark, x, y - CAP_HEIGHT * size / 2, size, "bold", "centre"),
    ]
    return records, Box(x - radius, y - radius, x + radius, y + radius).grown(2.0)


def frame(info: SheetInfo, paper: Paper, style: HouseStyle = HOUSE) -> Framed:
    """Frame, title block and mark of a drawing sheet; the free area keeps clear of frame and block, not of the mark
    balloon, whose corner is given as an obstacle.
    """
    spacing = style.spacing
    edge = paper.box.grown(-spacing.frame_margin)
    block = Box(edge.left, edge.bottom, edge.right, edge.bottom + spacing.title_block_height)
    free = Box(edge.left, block.top, edge.right, edge.top).grown(-spacing.frame_padding)
    records = [rectangle(edge, style.pens.frame), *title_block(info, block, style), *licence_line(paper, style)]
    obstacles: tuple[Box, ...] = ()
    if info.mark:
        balloon, corner = _mark_balloon(info.mark, free, style)
        records += balloon
        obstacles = (corner,)
    return Framed(tuple(records), free, obstacles)


def text_page(info: SheetInfo, paper: Paper, style: HouseStyle = HOUSE) -> Framed:
    """Header and footer of a page of lists or text: the title over a heavy rule, and project, maker, revision and sheet
    number under a fine one.
    """
    letters = style.lettering
    edge = paper.box.grown(-style.spacing.frame_margin - 2.0)
    rule = edge.top - letters.page_title * 1.25
    foot = edge.bottom + 5.2
    head, size = fit(info.title, edge.width * 0.68, letters.page_title, points(10.0), "bold")
    picture = logo(style, Box(edge.right - LOGO_WIDTH, rule + 1.4, edge.right, rule + 1.4 + LOGO_HEIGHT), "right")
    right = edge.right if picture is None else picture.box.left - 3.0
    project, small = fit(info.project, right - edge.left - edge.width * 0.7, letters.small, points(6.5))
    records: list[Record] = [
        *licence_line(paper, style),
        *([] if picture is None else [picture]),
        *set_text(head, edge.left, rule + 2.2, size, "bold", colour=style.colours.headings),
        *set_text(project, right, rule + 2.2, small, "semibold", "right", GREY),
        Line(edge.left, rule, edge.right, rule, style.pens.frame),
        Line(edge.left, foot, edge.right, foot, style.pens.rule),
    ]
    tiny = points(7.5)
    notes = [n for n in (info.maker, info.revision and f"Revision {info.revision}", info.units) if n]
    said, size = fit("   ·   ".join(notes), edge.width * 0.7, tiny, points(5.5))
    records += set_text(said, edge.left, edge.bottom + 1.0, size, colour=GREY)
    records += set_text(f"Sheet {info.sheet} / {info.sheets}", edge.right, edge.bottom + 1.0, tiny, "semibold", "right")
    return Framed(tuple(records), Box(edge.left, foot + 4.0, edge.right, rule - 5.0))
