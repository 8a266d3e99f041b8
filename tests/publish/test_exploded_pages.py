"""Exploded views: every part is in one of them, a sub-assembly moves as one, leaders never cross (by shapely)."""

from collections import Counter
from collections.abc import Sequence
from itertools import combinations

import numpy as np
import pytest

from model.piece import Piece
from model.sub_assemblies import LEAST, MANY, taken_apart
from publish.drawing.records import Circle, Label, Line, Sheet
from publish.edition import Edition
from publish.explode import exploded

shapely = pytest.importorskip("shapely")


def exploded_sheets(sheets: Sequence[Sheet]) -> list[Sheet]:
    return [sheet for sheet in sheets if sheet.key.startswith("exploded")]


def test_the_views_together_show_every_part_once(edition: Edition) -> None:
    piece = edition.piece
    found: Counter[str] = Counter()
    for view in edition.drawn.apart:
        times = 1 if view.group is None else len(view.group.copies)
        for shown in view.shown:
            if shown.group is None:
                assert len(shown.parts) == shown.count
                found[shown.mark] += times * shown.count
            else:
                assert shown.count * len(shown.group.parts) == len(shown.parts)
    assert found == Counter({item.mark: item.quantity for item in piece.items})


def test_a_sub_assembly_moves_as_one_and_comes_apart_by_itself(edition: Edition) -> None:
    piece = edition.piece
    apart = taken_apart(piece)
    whole = exploded(piece, apart.stages)
    for group in apart.groups:
        assert len(group.parts) >= LEAST
        for copy in group.copies:
            for name in copy:
                assert whole[name] == pytest.approx(whole[copy[0]])
        own = exploded(piece, group.stages)
        assert any(float(np.linalg.norm(own[name] - own[group.parts[0]])) > 1.0 for name in group.parts)


def test_only_what_is_crowded_is_shown_in_groups(bench_piece: Piece, rail_piece: Piece) -> None:
    for piece in (bench_piece, rail_piece):
        assert len(piece.parts) <= MANY and not piece.assemblies
        assert taken_apart(piece).groups == ()


def test_every_balloon_of_a_view_is_on_its_sheet(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    """A circle for each, the mark in it and once more in the list."""
    sheets = exploded_sheets(set_sheets)
    pen = edition.style.pens.balloon
    circles = sum(isinstance(r, Circle) and r.pen == pen for sheet in sheets for r in sheet.items)
    assert circles == sum(len(view.shown) for view in edition.drawn.apart)
    printed = Counter(r.string for sheet in sheets for r in sheet.items if isinstance(r, Label))
    for mark, count in Counter(shown.mark for view in edition.drawn.apart for shown in view.shown).items():
        assert printed[mark] >= 2 * count


def test_leaders_never_cross(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    dot = edition.style.spacing.anchor_dot
    for sheet in exploded_sheets(set_sheets):
        dots = {(r.x, r.y) for r in sheet.items if isinstance(r, Circle) and r.radius == dot}
        lines = [r for r in sheet.items if isinstance(r, Line) and (r.x0, r.y0) in dots]
        assert len(lines) == len(dots) > 0
        drawn = [shapely.LineString([(r.x0, r.y0), (r.x1, r.y1)]) for r in lines]
        assert not any(a.intersects(b) for a, b in combinations(drawn, 2)), sheet.key
