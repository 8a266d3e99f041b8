"""Files of templates: the sheets of all of them in one, tiled on the edition's paper or each whole on a large sheet."""

from __future__ import annotations

from collections.abc import Callable

from model.loops import Flat
from model.templates import Template, templates
from publish.drawing.box import Segment
from publish.drawing.imprint import BASELINE, licence_line
from publish.drawing.lettering import fit, set_text
from publish.drawing.records import Record, Sheet
from publish.drawing.style import GREY, POINT, Paper, points
from publish.edition import Edition, sheets
from publish.templates import key_maps
from publish.templates.ink import every_line
from publish.templates.name_place import end_records, hole_records, name_records
from publish.templates.tile_sheet import EDGE, FOOT, HEAD, SIDE, Sheeted, tile_records, window_of
from publish.templates.tiles import AIR, Grid, Tile, core, grid
from publish.words.templates import serves_in_short, title

Cutting = Callable[[Template, Edition], tuple[Paper, Grid]]
CAPTION, LEAST = points(6.5), points(5.0)
# ISO 216, and ANSI Y14.1 sizes A to E (from memory); mm, lying
LARGE: dict[str, tuple[tuple[str, float, float], ...]] = {
    "inch": (
        ("Letter", 279.4, 215.9),
        ("Tabloid", 431.8, 279.4),
        ("ANSI C", 558.8, 431.8),
        ("ANSI D", 863.6, 558.8),
        ("ANSI E", 1117.6, 863.6),
    ),
    "mm": (("A4", 297, 210), ("A3", 420, 297), ("A2", 594, 420), ("A1", 841, 594), ("A0", 1189, 841)),
}


def tiled(edition: Edition) -> list[Sheet]:
    """The templates on sheets of the edition's paper, maps of them first; none where no part wants one."""
    return _file(edition, on_sheets)


def whole(edition: Edition) -> list[Sheet]:
    """Each template on one sheet, the smallest standard one that holds it, else one of its own length."""
    return _file(edition, on_one)


def on_sheets(template: Template, edition: Edition) -> tuple[Paper, Grid]:
    """The edition's paper lying or standing, whichever takes fewer sheets."""
    lines = every_line(template)
    cuts = []
    for paper in (edition.paper, edition.paper.turned()):
        window = window_of(paper)
        cuts.append((paper, grid(lines, template.size, window.width, window.height)))
    return min(cuts, key=lambda cut: len(cut[1].tiles))


def on_one(template: Template, edition: Edition) -> tuple[Paper, Grid]:
    """The smallest of the large sheets that shows all of it."""
    wide, high = template.size[0] + 2 * (AIR + EDGE) + SIDE, template.size[1] + 2 * (AIR + EDGE) + HEAD + FOOT
    sizes = LARGE[edition.units.name]
    name, long, short = next((s for s in sizes if wide <= s[1] and high <= s[2]), ("Own size", 0.0, 0.0))
    if not long:
        long, short = max(wide, sizes[0][1]), max(high, sizes[0][2])
    paper = Paper(name, long / POINT, short / POINT)
    window = window_of(paper)
    return paper, grid(every_line(template), template.size, window.width, window.height)


def _file(edition: Edition, cutting: Cutting) -> list[Sheet]:
    cuts = [(template, *cutting(template, edition)) for template in templates(edition.piece)]
    if not cuts:
        return []
    maps = len(key_maps.leaves(edition, _numbered(edition, cuts, 0)))
    every = _numbered(edition, cuts, maps + 1)
    total = maps + sum(len(sheeted.grid.tiles) for sheeted in every)
    made = sheets(edition, key_maps.leaves(edition, every), of=total)
    for sheeted, (_, paper, _) in zip(every, cuts, strict=True):
        made += [_sheet(edition, sheeted, tile, paper, total) for tile in sheeted.grid.tiles]
    return made


def _numbered(edition: Edition, cuts: list[tuple[Template, Paper, Grid]], first: int) -> list[Sheeted]:
    found = []
    for template, _, cut in cuts:
        name = title(edition.piece, template)
        found.append(Sheeted(template, cut, first, name, serves_in_short(template)))
        first += len(cut.tiles)
    return found


def _sheet(edition: Edition, sheeted: Sheeted, tile: Tile, paper: Paper, total: int) -> Sheet:
    template, area = sheeted.template, window_of(paper)
    number = sheeted.number(tile)
    inner = core(tile, sheeted.grid.columns, sheeted.grid.rows)
    shift = area.left - tile.window.left, area.bottom - tile.window.bottom
    part = edition.piece.parts[template.part]
    style, taken = edition.style, sheeted.lines
    words = hole_records(template, edition.drill, inner, shift, taken, style)
    taken = [*taken, *_boxes(words, shift)]
    name = name_records(template, sheeted.title, bool(part.spec.wood), inner, shift, taken, style)
    taken = [*taken, *_boxes(name, shift)]
    records = [
        *tile_records(sheeted, tile, paper, total, style),
        *words,
        *name,
        *end_records(template, inner, shift, taken, style),
        *licence_line(paper, style),
        *_plan_line(edition, paper),
    ]
    level = 0 if tile is sheeted.grid.tiles[0] else None
    return Sheet(f"template-{number}", sheeted.title, paper, tuple(records), level, str(number))


def _plan_line(edition: Edition, paper: Paper) -> list[Record]:
    """Which plan a sheet belongs to, whose it is and which revision, at its very foot: sheets go astray."""
    info, edge = edition.info("", ""), paper.box.grown(-EDGE)
    words = "   ·   ".join((info.project, info.maker, f"Revision {info.revision}"))
    said, size = fit(words, edge.width * (0.27 if edition.style.imprint.licence else 1.0), CAPTION, LEAST)
    return set_text(said, edge.right, BASELINE, size, anchor="right", colour=GREY)


def _boxes(records: list[Record], shift: Flat) -> list[Segment]:
    """The places of words on a sheet (template mm), as lines that other words keep clear of."""
    found = []
    for record in records:
        box = record.box.moved(-shift[0], -shift[1])
        found += [Segment(box.left, box.bottom, box.right, box.top), Segment(box.left, box.top, box.right, box.bottom)]
    return found
