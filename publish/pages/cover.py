"""The cover: the finished piece, what it is called, how large it is, what it takes."""

from __future__ import annotations

from model.buying import purchases
from model.cut_list import supplied
from model.takeoff import hardware, lumber, total_mass
from publish.drawing.box import Box
from publish.drawing.imprint import logo
from publish.drawing.lettering import INLINE, fit, set_text, wrap
from publish.drawing.records import Line, Record, image_from_array
from publish.drawing.style import GREY, points
from publish.edition import Edition, Leaf
from publish.words.lists import feet_words, mass_words
from publish.words.names import capital, counted, in_figures, item_name, listed, plural
from publish.words.spelling import spelt

MARGIN = 15.0
BAND = 58.0  # mm of the page below the picture
NARROW = 74.0  # mm, the column on the right
LOGO = (44.0, 14.0)  # mm at most


def leaves(edition: Edition) -> list[Leaf]:
    """One page without a frame."""
    spec = edition.piece.design.spec
    page = edition.paper.box.grown(-MARGIN)
    records = _picture(edition, Box(page.left, page.bottom + BAND, page.right, page.top + 4.0))
    records += _title(edition, page)
    records += _needs(edition, Box(page.right - NARROW, page.bottom, page.right, page.bottom + BAND - 8.0))
    info = edition.info(spec.plan, "PLAN")
    return [Leaf("cover", spec.plan, tuple(records), info, "bare")]


def _picture(edition: Edition, area: Box) -> list[Record]:
    rgb = edition.drawn.cover.rgb
    rows, columns = rgb.shape[:2]
    width = min(area.width, area.height * columns / rows)
    height = width * rows / columns
    x, y = area.centre[0] - width / 2, area.centre[1] - height / 2
    return [image_from_array(rgb, x, y, width)]


def _title(edition: Edition, page: Box) -> list[Record]:
    spec, letters = edition.piece.design.spec, edition.style.lettering
    room = page.width - NARROW - 12.0
    y = page.bottom + BAND - 18.0
    picture = logo(
        edition.style, Box(page.left + room - LOGO[0], y - 1.0, page.left + room, y - 1.0 + LOGO[1]), "right"
    )
    title_room = room if picture is None else picture.box.left - page.left - 6.0
    title, em = fit(spec.plan, title_room, letters.cover_title, letters.heading, "bold")
    records: list[Record] = [*([] if picture is None else [picture])]
    records += set_text(title, page.left, y, em, "bold", colour=edition.style.colours.headings)
    y -= 8.5
    size = " × ".join(edition.number(mm) for mm in edition.piece.size) + f" {edition.units.suffix}"
    records += set_text(f"{size} (wide × deep × high)", page.left, y, letters.heading, "semibold", fraction=INLINE)
    y -= 1.5
    for line in wrap(spec.about, room, letters.body, "regular", INLINE)[:4]:
        y -= letters.body * letters.leading
        records += set_text(line, page.left, y, letters.body, fraction=INLINE)
    house = edition.style.imprint.name
    maker = f"{house}   ·   {spec.maker}" if house and house != spec.maker else spec.maker
    made = f"{maker}   ·   Revision {spec.revision}, {spec.date.isoformat()}   ·   {edition.info('', '').units}"
    records += set_text(made, page.left, page.bottom, points(8.5), colour=GREY)
    return records


def _needs(edition: Edition, area: Box) -> list[Record]:
    letters = edition.style.lettering
    records: list[Record] = [Line(area.left - 6.0, area.bottom, area.left - 6.0, area.top, edition.style.pens.rule)]
    y = area.top - letters.heading
    colour = edition.style.colours.headings
    records += set_text("What it takes", area.left, y, letters.heading, "bold", colour=colour)
    for need in _need_lines(edition):
        for line in wrap(need, area.width, letters.small, "regular", INLINE):
            y -= letters.small * letters.leading
            records += set_text(line, area.left, y, letters.small, fraction=INLINE)
        y -= 0.8
    return records


def _need_lines(edition: Edition) -> list[str]:
    piece = edition.piece
    lines = [f"{capital(row.wood)} {row.stock}: {feet_words(edition, row)}" for row in lumber(piece)]
    lines += [
        f"{capital(one.plan.wood)} {one.plan.stock}: {counted(one.count, 'sheet')}"
        for one in purchases(piece)
        if one.plan.of == "sheet"
    ]
    lines += [
        f"{item.quantity} × {item_name(piece, item)}, {piece.parts[item.shown].spec.made_of}, supplied by others"
        for item in supplied(piece)
    ]
    bought = [row for row in hardware(piece) if row.values]
    screws = sum(row.count for row in bought if row.what == "wood screw")
    if screws:
        lines.append(in_figures(screws, "screw"))
    others = dict.fromkeys(plural(row.what) for row in bought if row.what != "wood screw")
    if others:
        lines.append(spelt(edition, capital(listed(others))))
    lines += [f"{row.count} × {row.what}" for row in hardware(piece) if not row.values]
    spec = piece.design.spec
    lines += [word for word in (spec.glue, spec.finish.name if spec.finish else "") if word]
    parts = f"{in_figures(len(piece.parts), 'part')} from {in_figures(len(piece.items), 'drawing')}"
    weight = total_mass(piece)
    lines.append(parts if weight is None else f"{parts}; about {mass_words(edition, weight)} finished")
    return lines
