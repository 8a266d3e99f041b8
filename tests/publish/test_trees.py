"""The tree test on every part sheet of every set, and that it finds what is planted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from dimension_trees import SetDown, left_out, rectilinear, said_twice, set_down, views_of
from trials import built, edition_of

from publish.drawing.view import View
from publish.edition import Edition

NOTCHED = {
    **{"wood": "white oak", "runs": "left-right", "thick": "front-back", "length": 400, "width": 80, "thickness": 20},
    "where": {"bottom": "floor", "centred": ["left-right", "front-back"]},
    "shaping": [{"notch": {"side": "top", "from": "left", "at": 60, "long": 40, "deep": 15}}],
}


def test_sizes_of_every_view_form_a_tree(edition: Edition) -> None:
    for item in edition.piece.items:
        sheets = set_down(edition, item)
        assert said_twice(sheets) == [], item.name
        assert left_out(sheets, views_of(edition.drawn.parts[item.mark])) == [], item.name


@pytest.fixture(scope="module")
def notched() -> tuple[SetDown, dict[str, View]]:
    """A board with a notch: five sizes, all of them needed (closed reasoning)."""
    piece = built({"parts": {"board": NOTCHED}})
    assert piece is not None
    edition = edition_of(piece)
    (item,) = piece.items
    return set_down(edition, item), views_of(edition.drawn.parts[item.mark])


def test_a_notched_board_has_the_sizes_it_needs(notched: tuple[SetDown, dict[str, View]]) -> None:
    """Its outline by six numbers: three over all, where the notch is, how long and how deep."""
    sheets, views = notched
    assert all(map(rectilinear, views.values()))
    assert sorted(float(size.text) for size in sheets.sizes if not size.bracketed) == [15, 20, 40, 60, 80, 400]
    assert said_twice(sheets) == [] and left_out(sheets, views) == []


def test_a_size_dropped_is_found(notched: tuple[SetDown, dict[str, View]]) -> None:
    sheets, views = notched
    for n, size in enumerate(sheets.sizes):
        others = (*sheets.sizes[:n], *sheets.sizes[n + 1 :])
        assert left_out(replace(sheets, sizes=others, told=()), views), size


def test_a_size_said_again_is_found(notched: tuple[SetDown, dict[str, View]]) -> None:
    sheets, _ = notched
    for size in sheets.sizes:
        again = replace(sheets, sizes=(*sheets.sizes, size))
        assert said_twice(again), size
        assert not said_twice(replace(sheets, sizes=(*sheets.sizes, replace(size, bracketed=True)))), size


def test_a_ring_is_found(notched: tuple[SetDown, dict[str, View]]) -> None:
    """From the far end of the notch to the far end of the board: 400 less 60 less 40."""
    sheets, _ = notched
    long = next(size for size in sheets.sizes if size.text == "400")
    notch = next(size for size in sheets.sizes if size.text == "40")
    rest = replace(long, text="300", spans=((notch.spans[0][1], long.spans[0][1]),))
    assert said_twice(replace(sheets, sizes=(*sheets.sizes, rest)))


def test_a_count_that_is_not_so_is_found(notched: tuple[SetDown, dict[str, View]]) -> None:
    sheets, _ = notched
    assert said_twice(replace(sheets, sizes=(replace(sheets.sizes[0], text=f"2× {sheets.sizes[0].text}"),)))
