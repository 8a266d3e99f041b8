"""Sections: hatching judged by shapely and by area, and what the sheets say of each."""

import re
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from publish.drawing.hatching import Hatch, hatched
from publish.drawing.records import Label, Line, Sheet
from publish.drawing.style import NARROW
from publish.edition import Edition

shapely = pytest.importorskip("shapely")

ANGLE = st.integers(-90, 90).map(float)
APART = st.floats(0.7, 4.0)


@settings(max_examples=60, deadline=None)
@given(ANGLE, APART, st.integers(3, 9), st.floats(6.0, 60.0))
def test_hatching_stays_inside_and_fills(angle: float, apart: float, corners: int, size: float) -> None:
    """Lines so far apart have the area as length times distance, to within what lies along the outline."""
    turns = np.arange(corners) / corners * 2 * np.pi
    outer = np.stack([np.cos(turns), np.sin(turns)], axis=1) * size
    inner = outer * 0.4
    body = shapely.Polygon(outer, [inner])
    lines = hatched([outer, inner], Hatch(angle, apart))
    for line in lines:
        drawn = shapely.LineString([(line.x0, line.y0), (line.x1, line.y1)])
        assert drawn.difference(body.buffer(1e-6)).length == pytest.approx(0.0, abs=1e-6)
    total = sum(line.length for line in lines) * apart
    assert total == pytest.approx(body.area, abs=body.length * apart)


def section_sheets(sheets: Sequence[Sheet]) -> list[Sheet]:
    return [sheet for sheet in sheets if sheet.key.startswith("section-")]


def strings(sheet: Sheet) -> list[str]:
    return [record.string for record in sheet.items if isinstance(record, Label)]


def test_every_piece_has_a_section_and_its_line_on_the_overall_views(set_sheets: Sequence[Sheet]) -> None:
    (overall,) = [sheet for sheet in set_sheets if sheet.key == "overall"]
    letters = [sheet.key[-1] for sheet in section_sheets(set_sheets)]
    assert letters
    for letter in letters:
        assert strings(overall).count(letter) == 2


def test_parts_that_adjoin_are_hatched_apart(edition: Edition) -> None:
    for section in edition.drawn.sections:
        for n, face in enumerate(section.faces):
            for m in range(n):
                if face.adjoins(section.faces[m]):
                    assert section.ways[n] != section.ways[m]


def test_everything_cut_is_named(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    marks = {n: item.mark for item in edition.piece.items for n in (*item.parts, *item.mirrored)}
    for sheet, section in zip(section_sheets(set_sheets), edition.drawn.sections, strict=True):
        said = strings(sheet)
        told = re.findall(r"\b[A-Z]{1,2}\b", " ".join(s for s in said if "Cut too" in s).partition("Cut too")[2])
        for face in section.faces:
            assert marks[face.part.name] in [*said, *told]


def test_hatching_is_narrow_and_far_enough_apart(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    """ISO 128-20: parallel lines at least 0.7 mm apart; hatching is a narrow line."""
    for section in edition.drawn.sections:
        for number in range(len(section.faces)):
            for scale in (0.1, 0.5, 2.0):
                assert section.hatch(number, scale).apart >= 0.7
    for sheet in section_sheets(set_sheets):
        narrow = [record for record in sheet.items if isinstance(record, Line) and record.pen.width == NARROW]
        assert len(narrow) > 10
