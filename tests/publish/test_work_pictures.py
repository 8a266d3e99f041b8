"""Pictures of work on single parts: every cut is marked, and told with its setting, at the cut."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.steps import works_of
from model.works import WORKS
from publish.cut_labels import LEAST, Layout, below, beside, least_height, set_worked, stands, told_of
from publish.drawing.box import Box, Segment, segments_cross
from publish.drawing.placed import PlacedView
from publish.drawing.records import Label, Line, Sheet
from publish.drawing.view import View, axes_of
from publish.edition import Edition
from publish.pictures import Cut
from publish.words.set_ups import MACHINES
from publish.words.setting_labels import LABELS

BLANK = {"plane", "rip", "crosscut"}  # set for the blank: told by the cut list
SMALL = 3  # pixels
COLUMNS = (56.0, 118.0)  # mm


def test_every_work_that_cuts_is_marked(edition: Edition) -> None:
    """In colour, or where the cut is too small or lies behind with a ring; rings are drawn at the scale of the page."""
    if edition.units.name == "mm":
        pytest.skip("the pictures are those of the inch edition")
    unmarked = []
    for item in edition.piece.items:
        for work in WORKS:
            done = works_of(edition.piece, item) & set(work.operations)
            if not done or work.kind == "glue up":
                continue
            picture = edition.drawn.worked[item.mark, work.kind]
            if not int((picture.tint.ids > 0).sum()) > SMALL and not picture.spots:
                unmarked.append((item.mark, item.name, work.kind))
            assert len(picture.cuts) >= 1
    assert not unmarked


def test_a_mark_lies_on_its_part(edition: Edition) -> None:
    for picture in edition.drawn.worked.values():
        for cut in picture.cuts:
            assert picture.box.grown(1.0).has(cut.at)
            if cut.seen:
                column, row = (round(float(v[0])) for v in picture.tint.grid.pixels(*map(np.atleast_1d, cut.at)))
                assert picture.tint.ids[row, column] > 0


def test_every_kind_of_setting_has_its_label() -> None:
    assert set(LABELS) == set(MACHINES) - BLANK


def without_spaces(sheets: Sequence[Sheet]) -> str:
    return "".join(record.string for sheet in sheets for record in sheet.items if isinstance(record, Label)).replace(
        " ", ""
    )


def test_every_setting_is_told_at_its_cut(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    """Of the mm edition, where no fraction stands among the words: the label in the picture, line after line."""
    if edition.units.name == "inch":
        pytest.skip("fractions are set in pieces")
    page = without_spaces([sheet for sheet in set_sheets if sheet.key.startswith("steps")])
    told = [
        "".join(lines).replace(" ", "")
        for step in edition.steps
        for one in step.every
        for item in one.items
        if (picture := edition.drawn.worked.get((item.mark, one.kind))) is not None
        for lines in told_of(edition, picture)
    ]
    assert told
    assert not [words for words in told if words not in page]


def test_leaders_do_not_cross(edition: Edition) -> None:
    """In columns as wide as those of a page, at the least height a picture may have and with room."""
    for picture in edition.drawn.worked.values():
        if not told_of(edition, picture):
            continue
        for width in COLUMNS:
            least = least_height(edition, picture, width)
            for height in (least, least + 30.0):
                records = set_worked(edition, picture, Box(0.0, 0.0, width, height))
                pen = edition.style.pens.leader
                leaders = [Segment(r.x0, r.y0, r.x1, r.y1) for r in records if isinstance(r, Line) and r.pen == pen]
                assert any(isinstance(record, Label) for record in records)
                assert not any(segments_cross(a, b) for a, b in itertools.combinations(leaders, 2))


PLACES = st.lists(st.tuples(st.floats(0, 100), st.floats(0, 30)), min_size=1, max_size=5, unique=True)


@given(PLACES, st.sampled_from([beside, below]))
def test_labels_stand_apart_in_their_area(places: list[tuple[float, float]], way: Callable[..., Layout | None]) -> None:
    """Whatever the places of the cuts: boxes in the area, clear of each other and of the picture."""
    told = {(f"setting {n}",): Cut(at, ()) for n, at in enumerate(places)}
    area = Box(0.0, 0.0, 160.0, 60.0)
    layout = way(told, area, 3.0)
    if layout is None:
        assert len(places) > 1
        return
    made = stands(
        layout,
        PlacedView("picture", View(axes_of((0, -1, 0), (1, 0, 0)), (), Box(0.0, 0.0, 1.0, 1.0)), 0.0, 0.0, 1.0),
        area,
    )
    boxes = [box for _, box, _ in made]
    assert all(area.grown(1e-6).left <= b.left and b.right <= area.right + 1e-6 for b in boxes)
    assert all(area.bottom - 1e-6 <= b.bottom and b.top <= area.top + 1e-6 for b in boxes)
    for a, b in itertools.combinations([*boxes, layout.room], 2):
        assert (
            a.right <= b.left + 1e-6 or b.right <= a.left + 1e-6 or a.top <= b.bottom + 1e-6 or b.top <= a.bottom + 1e-6
        )
    assert layout.room.height >= LEAST - 1e-6
