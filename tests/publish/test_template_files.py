"""Files of templates read back: bars and outlines measured in the PDF, the DXF by ezdxf, areas by shapely."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import ezdxf
import ezdxf.bbox
import ezdxf.path
import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf.generic import ContentStream
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.ops import unary_union

from model.build import build
from model.loops import Loop, Stretch, ring
from model.piece import Piece
from model.templates import Template, templates
from plans.resolve import resolve
from plans.source import read_text
from publish.drawing.box import Box, Segment, segment_meets_box
from publish.drawing.records import Label, Line
from publish.edition import Edition
from publish.templates.file import on_sheets, tiled, whole
from publish.templates.ink import every_line
from publish.templates.tile_sheet import window_of
from publish.templates.tiles import OVERLAP, clipped, core, grid
from publish.words.templates import dxf_name, where_to_find
from publish.writers.dxf import LAYERS, dxf_text
from publish.writers.pdf import Document, pdf_bytes

MM = 72 / 25.4  # points
DESIGN = """plan: Trial <b>&
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: mm
parts:
  apron:
    wood: white oak
    runs: left-right
    thick: front-back
    length: 620
    width: 90
    thickness: 20
    where: {bottom: floor, front: 0, centred: left-right}
    shaping:
      - arc: {edge: bottom, bend: hollow, rise: 22, flat: 40}
      - hole: {side: front, diameter: 8, at: {top: 20}, count: 3, spacing: 120}
      - hole: {side: front, diameter: 5, at: {top: 40}, count: 3, spacing: 150}
  plain:
    wood: white oak
    runs: left-right
    thick: front-back
    length: 300
    width: 90
    thickness: 20
    where: {bottom: floor, front: 100, centred: left-right}
  bracket:
    wood: white oak
    runs: left-right
    thick: front-back
    length: 240
    width: 260
    thickness: 18
    where: {bottom: floor, front: 200, left: 100}
    shaping:
      - curve: {edge: top, from: left, through: [{along: 0, in: 6}, {along: 120, in: 70}, {along: 240, in: 20}]}
    mirror: [left-right]
"""


def made_of(text: str) -> Piece:
    source, problems = read_text("trial.yaml", text.encode())
    assert source is not None, problems
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    return piece


@pytest.fixture(scope="module")
def piece() -> Piece:
    return made_of(DESIGN)


@pytest.fixture(scope="module", params=["inch", "mm"])
def trial(request: pytest.FixtureRequest, piece: Piece) -> Edition:
    return Edition(piece, (), None, piece.design.units(request.param))  # type: ignore[arg-type]


def strokes(page: pypdf.PageObject) -> Iterator[tuple[float, LineString]]:
    """Every line of a page in mm with its width in mm, read from the operators of its content (PDF 1.7, 8.5)."""
    content = page.get_contents()
    assert content is not None
    width, path, at = 1.0, [], (0.0, 0.0)
    for operands, operator in ContentStream(content, None).operations:
        numbers = [float(v) / MM for v in operands if isinstance(v, int | float | pypdf.generic.FloatObject)]
        if operator == b"w":
            width = numbers[0]
        elif operator == b"m":
            path = [at := (numbers[0], numbers[1])]
        elif operator == b"l":
            path.append(at := (numbers[0], numbers[1]))
        elif operator == b"c":
            path += [cubic(at, numbers, n / 24) for n in range(1, 25)]
            at = path[-1]
        elif operator == b"h":
            path.append(path[0])
        elif operator == b"S" and len(path) > 1:
            yield width, LineString(path)


def cubic(at: tuple[float, float], rest: list[float], t: float) -> tuple[float, float]:
    points = [at, *zip(rest[::2], rest[1::2], strict=True)]
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    x, y = (sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))
    return x, y


def read(edition: Edition, sheets) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf_bytes(sheets, Document("templates"))), strict=True)


def flat(template: Template) -> MultiLineString:
    return MultiLineString([[s.at(n / 60) for n in range(61)] for s in every_line(template)])


def test_plain_parts_have_none_and_the_rest_is_named(piece: Piece) -> None:
    assert {template.part for template in templates(piece)} == {"apron", "bracket right"}
    none = made_of(DESIGN.split("  apron:")[0] + "  plain:" + DESIGN.split("  plain:")[1].split("  bracket:")[0])
    edition = Edition(none, (), None, none.design.units("mm"))  # type: ignore[arg-type]
    assert tiled(edition) == [] and whole(edition) == [] and where_to_find(edition) == ""


def test_check_bars_are_exact_on_every_sheet(trial: Edition) -> None:
    """100 mm across and 4 in (101.6 mm) up."""
    for make in (tiled, whole):
        sheets = make(trial)
        for sheet, page in zip(sheets, read(trial, sheets).pages, strict=True):
            if not sheet.key.startswith("template"):
                continue
            boxes = [line.bounds for _, line in strokes(page)]
            level = [right - left for left, low, right, high in boxes if high - low < 1e-6]
            upright = [high - low for left, low, right, high in boxes if right - left < 1e-6]
            assert min(abs(long - 100.0) for long in level) < 1e-4
            assert min(abs(long - 101.6) for long in upright) < 1e-4


def test_the_sheets_put_together_are_the_template(trial: Edition) -> None:
    """Each sheet's lines moved to where its window lies; what they make together against the template itself."""
    sheets = tiled(trial)
    pages = {sheet.key: page for sheet, page in zip(sheets, read(trial, sheets).pages, strict=True)}
    number = sum(not sheet.key.startswith("template") for sheet in sheets) + 1
    for template in templates(trial.piece):
        paper, cut = on_sheets(template, trial)
        area, wanted, found = window_of(paper), flat(template), []
        for tile in cut.tiles:
            page = pages[f"template-{number}"]
            assert (float(page.mediabox.width), float(page.mediabox.height)) == (paper.width_pt, paper.height_pt)
            shift = tile.window.left - area.left, tile.window.bottom - area.bottom
            for width, line in strokes(page):
                moved = LineString([(x + shift[0], y + shift[1]) for x, y in line.coords])
                if width > 0.3 and wanted.buffer(0.1).covers(moved):
                    found.append(moved)
            number += 1
        together = unary_union(found).buffer(0.1)
        assert together.covers(wanted)
    assert number == len(sheets) + 1


def test_seams_are_marked_at_the_same_places_on_both_sheets(trial: Edition) -> None:
    """Registration marks are circles of one size; on sheets that join they are as far apart, and on the same lines."""
    sheets = {sheet.key: sheet for sheet in tiled(trial)}
    template = next(t for t in templates(trial.piece) if t.part == "apron")
    paper, cut = on_sheets(template, trial)
    assert len(cut.tiles) == 3 and cut.rows == 1
    keys = [key for key, sheet in sheets.items() if sheet.title.startswith("A ") and key.startswith("template")]
    from publish.drawing.records import Circle

    places = []
    for key, tile in zip(keys, cut.tiles, strict=True):
        area = window_of(paper)
        shift = tile.window.left - area.left, tile.window.bottom - area.bottom
        circles = [r for r in sheets[key].items if isinstance(r, Circle)]
        places.append({(round(c.x + shift[0], 6), round(c.y + shift[1], 6)) for c in circles})
    assert len(places[0] & places[1]) == 2 and len(places[1] & places[2]) == 2
    for tile, other in zip(cut.tiles, cut.tiles[1:], strict=False):
        assert tile.window.right - other.window.left == pytest.approx(OVERLAP) and OVERLAP >= 10


def test_whole_sheets_hold_all_of_their_template(trial: Edition) -> None:
    sheets = [sheet for sheet in whole(trial) if sheet.key.startswith("template")]
    assert len(sheets) == len(templates(trial.piece))
    for sheet, template in zip(sheets, templates(trial.piece), strict=True):
        wide, high = template.size
        assert sheet.paper.width > wide and sheet.paper.height > high
        assert all(sheet.paper.box.holds(record.box) for record in sheet.items)


def test_nothing_on_a_sheet_is_out_of_reach_of_a_printer(trial: Edition) -> None:
    for sheet in tiled(trial):
        inside = sheet.paper.box.grown(-6.35)  # a quarter of an inch, common practice
        assert all(inside.holds(record.box) for record in sheet.items), sheet.key


def test_no_words_stand_on_words_or_on_lines(trial: Edition) -> None:
    """By the records' own boxes, on every sheet, maps included."""
    for sheet in (*tiled(trial), *whole(trial)):
        labels = [record for record in sheet.items if isinstance(record, Label) and record.string.strip()]
        for a, b in combinations(labels, 2):
            assert not a.box.grown(-0.05).meets(b.box.grown(-0.05)), (sheet.key, a.string, b.string)
        for record in sheet.items:
            if isinstance(record, Line):
                line = Segment(record.x0, record.y0, record.x1, record.y1)
                met = [a.string for a in labels if segment_meets_box(line, a.box.grown(-0.1))]
                assert not met, (sheet.key, line, met)


def test_same_piece_same_bytes(trial: Edition) -> None:
    assert pdf_bytes(tiled(trial), Document("t")) == pdf_bytes(tiled(trial), Document("t"))
    template = templates(trial.piece)[0]
    assert dxf_text(template, "words") == dxf_text(template, "words")
    assert "20" + "26" not in dxf_text(template, "words")  # no year of writing


@pytest.mark.parametrize("part", ["apron", "bracket right"])
def test_the_drawing_reads_back_as_the_face(piece: Piece, part: str, tmp_path: Path) -> None:
    template = next(t for t in templates(piece) if t.part == part)
    file = tmp_path / dxf_name(piece, template)
    file.write_text(dxf_text(template, "Trial %%u {\\H9;} ^J"), encoding="utf-8")
    drawing = ezdxf.readfile(file)
    audit = drawing.audit()
    assert not audit.errors and not audit.fixes
    assert drawing.units == ezdxf.units.MM
    assert set(LAYERS) <= {layer.dxf.name for layer in drawing.layers}
    space = drawing.modelspace()
    (rim,) = space.query("LWPOLYLINE[layer=='OUTLINE']")
    assert rim.closed
    holes = space.query("CIRCLE[layer=='HOLES']")
    polygon = Polygon([(p.x, p.y) for p in ezdxf.path.make_path(rim).flattening(0.001)])
    area = polygon.area - sum(math.pi * hole.dxf.radius**2 for hole in holes)
    faces = [f for f in piece.parts[part].sharp.Faces() if f.geomType() == "PLANE" and abs(f.normalAt().y) > 1 - 1e-9]
    assert area == pytest.approx(max(face.Area() for face in faces), rel=1e-4)
    extents = ezdxf.bbox.extents([rim], fast=False)
    size = piece.parts[part].over_all[:2]
    assert (extents.size.x, extents.size.y) == pytest.approx(size, abs=0.01)
    low, high = drawing.header["$EXTMIN"], drawing.header["$EXTMAX"]
    assert (high[0] - low[0], high[1] - low[1]) == pytest.approx(size, abs=0.01)


def test_every_opening_is_a_closed_line_on_its_layer(piece: Piece) -> None:
    for template in templates(piece):
        space = ezdxf.read(io.StringIO(dxf_text(template, ""))).modelspace()
        lines = space.query("LWPOLYLINE")
        assert all(line.closed for line in lines)
        assert len(lines) == len(template.loops) and len(space.query("CIRCLE")) == len(template.holes)


@settings(deadline=None, max_examples=40)
@given(st.floats(20, 900), st.floats(20, 700), st.floats(60, 400), st.floats(60, 400), st.floats(-0.9, 0.9))
def test_cores_share_out_every_line_and_windows_overlap(
    wide: float, high: float, window: float, window_high: float, bulge: float
) -> None:
    """Length in the cores adds up to the whole: nothing is lost between sheets, nothing is counted twice."""
    rim = Loop(
        (Stretch((0, 0), (wide, high), bulge * 0.3), Stretch((wide, high), (0, high)), Stretch((0, high), (0, 0)))
    )
    lines = [*rim.stretches, *ring((wide / 3, high * 0.7), min(wide, high) / 5).stretches]
    left, bottom, right, top = rim.bounds()
    moved = [
        Stretch((s.start[0] - left, s.start[1] - bottom), (s.end[0] - left, s.end[1] - bottom), s.bulge) for s in lines
    ]
    cut = grid(moved, (right - left, top - bottom), window, window_high)

    def length(stretches) -> float:
        return sum(s.radius * abs(s.sweep) if s.is_round else s.chord for s in stretches)

    shared = sum(length(clipped(moved, core(tile, cut.columns, cut.rows))) for tile in cut.tiles)
    assert shared == pytest.approx(length(moved), rel=1e-6)
    for tile in cut.tiles:
        assert tile.window.holds(core(tile, cut.columns, cut.rows))
        for piece in clipped(moved, tile.window):
            assert tile.window.grown(1e-6).holds(Box(*piece.bounds()))
        beside = cut.at(tile.row, tile.column + 1)
        if beside is not None:
            assert tile.window.right - beside.window.left == pytest.approx(OVERLAP)


def test_hostile_words_are_plain_text(piece: Piece) -> None:
    edition = Edition(piece, (), None, piece.design.units("mm"))  # type: ignore[arg-type]
    text = "".join(page.extract_text() for page in read(edition, tiled(edition)).pages)
    assert "Trial <b>&" in text
