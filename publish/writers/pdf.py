"""Sheets to PDF: the records drawn as they are, nothing decided here.

The same sheets give the same bytes. All lettering is embedded and subset; text goes on the page as plain strings, never
through a markup parser; page boxes are those of the paper; a viewer is asked not to scale when it prints.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from PIL import Image as Picture
from reportlab import rl_config
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from publish.drawing.records import Circle, Curve, Image, Label, Line, Link, Move, Path, Record, Sheet
from publish.drawing.style import POINT, Colour, Pen
from publish.drawing.typeface import FILES, clean, face, font_name

_PT = 1 / POINT


@dataclass(frozen=True)
class Document:
    """What the file says of itself. `language` is a BCP 47 tag such as "en-US"."""

    title: str
    author: str = ""
    subject: str = ""
    keywords: str = ""
    language: str = "en-US"


def _register_faces() -> None:
    known = set(pdfmetrics.getRegisteredFontNames())
    for style in FILES:
        if font_name(style) not in known:
            pdfmetrics.registerFont(face(style))


def _use_pen(canvas: Canvas, pen: Pen) -> None:
    canvas.setLineWidth(pen.width * _PT)
    canvas.setStrokeColorRGB(*pen.colour)
    canvas.setDash([d * _PT for d in pen.dash])


def _use_fill(canvas: Canvas, colour: Colour) -> None:
    canvas.setFillColorRGB(*colour)


def _draw_line(canvas: Canvas, line: Line) -> None:
    _use_pen(canvas, line.pen)
    canvas.line(line.x0 * _PT, line.y0 * _PT, line.x1 * _PT, line.y1 * _PT)


def _draw_path(canvas: Canvas, path: Path) -> None:
    if path.pen:
        _use_pen(canvas, path.pen)
    if path.fill:
        _use_fill(canvas, path.fill)
    outline = canvas.beginPath()
    for step in path.steps:
        x, y = step.to[0] * _PT, step.to[1] * _PT
        if isinstance(step, Curve):
            (ax, ay), (bx, by) = step.first, step.second
            outline.curveTo(ax * _PT, ay * _PT, bx * _PT, by * _PT, x, y)
        elif isinstance(step, Move):
            outline.moveTo(x, y)
        else:
            outline.lineTo(x, y)
    if path.closed:
        outline.close()
    canvas.drawPath(outline, stroke=int(path.pen is not None), fill=int(path.fill is not None))


def _draw_circle(canvas: Canvas, circle: Circle) -> None:
    if circle.pen:
        _use_pen(canvas, circle.pen)
    if circle.fill:
        _use_fill(canvas, circle.fill)
    canvas.circle(
        circle.x * _PT,
        circle.y * _PT,
        circle.radius * _PT,
        stroke=int(circle.pen is not None),
        fill=int(circle.fill is not None),
    )


def _replacement_text(reads: str) -> str:
    """Start of a marked span whose text, for searches, is `reads` (PDF 1.7, 14.9.4)."""
    code = reads.encode("utf-16-be").hex()
    return f"/Span <</ActualText <feff{code}>>> BDC"


def _draw_label(canvas: Canvas, label: Label) -> None:
    if not label.string:
        return
    x, y = label.start
    text = canvas.beginText()
    text.setFont(font_name(label.style), label.size * _PT)
    text.setFillColorRGB(*label.colour)
    if label.rotation:
        text.setTextTransform(0, 1, -1, 0, x * _PT, y * _PT)
    else:
        text.setTextOrigin(x * _PT, y * _PT)
    text.textOut(label.string)
    if label.reads is None:
        canvas.drawText(text)
        return
    canvas.addLiteral(_replacement_text(label.reads))
    canvas.drawText(text)
    canvas.addLiteral("EMC")


def _draw_image(canvas: Canvas, image: Image) -> None:
    picture = Picture.frombytes("RGB", (image.columns, image.rows), image.pixels)
    canvas.drawImage(
        ImageReader(picture), image.x * _PT, image.y * _PT, image.width * _PT, image.height * _PT, mask=None
    )


rl_config.useA85 = 0  # binary streams: a third smaller, and most of the time of a picture was spent on writing letters


_DRAWERS: dict[type, Callable[[Canvas, Any], None]] = {
    Line: _draw_line,
    Path: _draw_path,
    Circle: _draw_circle,
    Label: _draw_label,
    Image: _draw_image,
}


def _draw_link(canvas: Canvas, link: Link, places: dict[str, str]) -> None:
    """A link to a sheet of this file; one that leads nowhere is left out, since viewers report it as damage."""
    if link.to not in places:
        return
    rect = tuple(v * _PT for v in link.box)
    canvas.linkRect("", places[link.to], rect, relative=0, thickness=0, Border="[0 0 0]")


def _draw_items(canvas: Canvas, items: Iterable[Record], places: dict[str, str]) -> None:
    for item in items:
        if isinstance(item, Link):
            _draw_link(canvas, item, places)
        else:
            _DRAWERS[type(item)](canvas, item)


def _start_canvas(target: io.BytesIO, document: Document, first: Sheet) -> Canvas:
    canvas = Canvas(
        target,
        pagesize=(first.paper.width_pt, first.paper.height_pt),
        invariant=1,
        pageCompression=1,
        initialFontName=font_name("regular"),
        initialFontSize=10,
        lang=document.language,
        pdfVersion=(1, 7),
    )
    canvas.setTitle(clean(document.title))
    canvas.setAuthor(clean(document.author))
    canvas.setSubject(clean(document.subject))
    canvas.setKeywords(clean(document.keywords))
    canvas.setCreator("plansheaf")
    canvas.setProducer("plansheaf")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas


def _bookmark(canvas: Canvas, sheet: Sheet, place: str, last_level: int) -> int:
    """Bookmark the sheet being drawn; the level used: never more than one below the one before."""
    canvas.bookmarkPage(place)
    if sheet.level is None:
        return last_level
    level = min(sheet.level, last_level + 1)
    canvas.addOutlineEntry(clean(sheet.title) or place, place, level=level)
    return level


def pdf_bytes(sheets: Sequence[Sheet], document: Document) -> bytes:
    """The sheets as one PDF file; ValueError when there are none or two share a key."""
    if not sheets:
        raise ValueError("a plan set without sheets")
    places = {sheet.key: f"sheet-{n}" for n, sheet in enumerate(sheets, 1)}
    if len(places) != len(sheets):
        raise ValueError("two sheets have the same key")
    _register_faces()
    target = io.BytesIO()
    canvas = _start_canvas(target, document, sheets[0])
    level = -1
    for number, sheet in enumerate(sheets):
        canvas.setPageSize((sheet.paper.width_pt, sheet.paper.height_pt))
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
        level = _bookmark(canvas, sheet, places[sheet.key], level)
        _label_page(canvas, number, sheet)
        _draw_items(canvas, sheet.items, places)
        canvas.showPage()
    if level >= 0:
        canvas.showOutline()
    canvas.save()
    return target.getvalue()


def _label_page(canvas: Canvas, number: int, sheet: Sheet) -> None:
    """The page number a viewer shows: the sheet's own label as it stands, or its place in the set."""
    if sheet.page_label:
        canvas.addPageLabel(number, style=None, prefix=clean(sheet.page_label))
    else:
        canvas.addPageLabel(number, style="ARABIC", start=number + 1)


def write_pdf(path: FilePath, sheets: Sequence[Sheet], document: Document) -> None:
    """Write the sheets as a PDF file at `path`; OSError when that cannot be done."""
    path.write_bytes(pdf_bytes(sheets, document))
