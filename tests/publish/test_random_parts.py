"""Sheets of parts nobody thought of: all kinds of shaping and of joint, in any size.

Some dozens by default, the same each time; `SHEETS_TRIED=500 pytest tests/publish/test_random_parts.py` tries so many.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations
from typing import Any

import pytest
from dimension_trees import left_out, said_twice, set_down_in, views_of
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from trials import Entry, built, edition_of

from model.cache import kept_in
from model.piece import Item, Piece
from publish.drawing.box import Point, Segment, segment_meets_box
from publish.drawing.dimensioning import overlaps
from publish.drawing.part_drawing import PartDrawing
from publish.drawing.records import Curve, Label, Line, Move, Step
from publish.drawing.records import Path as Outline
from publish.drawing.wishes import CalloutWish, DimensionWish
from publish.edition import Edition, Leaf
from publish.pages import part_sheets
from publish.part_wishes import wishes
from publish.words.notes import notes

TRIED = int(os.environ.get("SHEETS_TRIED", "24"))
WITH_SLOW_PARTS = settings(
    max_examples=TRIED,
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.explicit, Phase.generate),  # shrinking takes minutes
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
)
STEP = 0.5  # mm, the printed step of a metric set unless a design says another
TOUCH = 0.05  # mm: letters set side by side may touch


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    """A length as a maker would write it: half millimetres."""
    return st.integers(int(2 * low), max(int(2 * low), int(2 * high))).map(lambda halves: halves / 2)


ENDS, EDGES = ("left", "right"), ("top", "bottom")
end, edge = st.sampled_from(ENDS), st.sampled_from(EDGES)
face = st.sampled_from(("front", "back"))


def shapings(long: float, wide: float, thick: float) -> dict[str, st.SearchStrategy[Entry]]:
    """An entry of each kind of shaping for a board from left to right, its thickness from front to back."""
    some = st.fixed_dictionaries
    into, across, far = thick / 2, wide / 3, long / 3
    place = some({"left": mm(20, far), "bottom": mm(10, across)})
    return {
        "taper": some({"sides": edge, "from": end, "after": mm(0, far), "to": mm(wide / 2, wide - 3)}),
        "end cut": some({"end": end, "slopes": some({"top": st.integers(3, 30)})}),
        "bevel": some({"edge": edge, "towards": face, "angle": st.integers(2, 20)}),
        "arc": some({"edge": edge, "bend": st.sampled_from(["hollow", "crown"]), "rise": mm(3, across / 2)}),
        "relieved ends": some({"edge": edge, "rise": mm(4, across), "long": mm(60, far), "level": mm(0, 40)}),
        "round over": some({"arrises": st.sampled_from(["long", "ends", "all"]), "radius": mm(1, into / 2)}),
        "chamfer": some({"arrises": st.sampled_from(["long", "ends"]), "size": mm(1, into / 2)}),
        "notch": some({"side": edge, "from": end, "at": mm(20, far), "long": mm(8, 60), "deep": mm(4, across)}),
        "hole": some(
            {"side": face, "diameter": mm(4, 12), "at": place, "count": st.integers(2, 5), "spacing": mm(26, 64)}
        ),
        "groove": some({"side": edge, "wide": mm(3, into), "deep": mm(4, 10), "at": some({"front": mm(4, thick / 3)})}),
        "rabbet": some({"side": face, "edge": edge, "wide": mm(5, across), "deep": mm(3, into)}),
        "slot": some({"side": face, "long": mm(30, 80), "wide": mm(6, 14), "at": place}),
        "recess": some({"side": face, "long": mm(20, 80), "wide": mm(8, across), "deep": mm(2, into), "at": place}),
        "cove": some({"arrises": st.just("[top front]").map(lambda _: ["top front"]), "radius": mm(3, into / 2)}),
        "hand hold": some({"side": face, "long": mm(80, 120), "wide": mm(22, 34), "at": place}),
        "curve": some(
            {
                **{"edge": edge, "from": end},
                "through": st.tuples(mm(0, 10), mm(4, across / 2), mm(0, 6)).map(
                    lambda deep: [
                        {"along": long * share, "in": d} for share, d in zip((0.25, 0.5, 0.75), deep, strict=True)
                    ]
                ),
            }
        ),
        "thumbnail": some({"face": st.just("front"), "edges": edge, "radius": mm(4, into / 2), "step": mm(1, 2)}),
    }


@st.composite
def boards(pick: st.DrawFn) -> Entry:
    """A design of one board with up to four shapings."""
    long, wide, thick = pick(mm(160, 1900)), pick(mm(40, 320)), pick(mm(16, 50))
    kinds = shapings(long, wide, thick)
    chosen = pick(st.lists(st.sampled_from(sorted(kinds)), max_size=4, unique=True))
    made = [{kind: pick(kinds[kind])} for kind in chosen]
    board = {
        "wood": "white oak",
        **{"runs": "left-right", "thick": "front-back", "length": long, "width": wide, "thickness": thick},
        "where": {"bottom": "floor", "centred": ["left-right", "front-back"]},
        "shaping": made,
    }
    return {"parts": {"board": board}}


def joints(thick: float, wide: float) -> dict[str, st.SearchStrategy[Entry]]:
    """An entry of each kind of joint between a rail and the post its left end lies against."""
    some = st.fixed_dictionaries
    pair = {"of": st.just("rail"), "into": st.just("post")}
    tenon = {**pair, "thick": mm(5, thick / 2), "long": mm(12, 28)}
    return {
        "mortise and tenon": st.one_of(
            some(tenon),
            some({**tenon, "shoulders": some({"bottom": mm(4, wide / 4)})}),
            some({**tenon, "shoulders": some({"top": mm(12, wide / 3)}), "haunch": some({"top": mm(5, 10)})}),
            some({**tenon, "pegs": some({"diameter": mm(5, 8), "count": st.just(2), "set in": mm(10, 12)})}),
        ),
        "dowel": some({**pair, "diameter": st.sampled_from([6, 8, 10]), "long": mm(30, 50), "per place": st.just(2)}),
        "loose tenon": some({**pair, "thick": mm(5, thick / 2), "wide": mm(16, wide / 2), "long": mm(30, 50)}),
        "housing": some({**pair, "deep": mm(4, 12)}),
        "tongue and groove": some({**pair, "thick": mm(4, thick / 2), "long": mm(5, 12)}),
        "sliding dovetail": some({**pair, "deep": mm(6, 12), "slope": st.sampled_from(["1:6", "1:8"])}),
        "biscuit": some({**pair, "size": st.just(20), "per place": st.just(1)}),
    }


@st.composite
def frames(pick: st.DrawFn) -> Entry:
    """A design of a rail between two posts, by one kind of joint."""
    wide, thick = pick(mm(50, 140)), pick(mm(18, 30))
    kinds = joints(thick, wide)
    kind = pick(st.sampled_from(sorted(kinds)))
    post = {
        "wood": "white oak",
        **{"runs": "up-down", "thick": "front-back", "length": pick(mm(300, 1600)), "width": pick(mm(48, 80))},
        "thickness": pick(mm(48, 80)),
        "where": {"bottom": "floor", "left": -pick(mm(200, 900)), "centred": "front-back"},
        "mirror": "left-right",
    }
    rail = {
        **{"wood": "white oak", "runs": "left-right", "thick": "front-back", "width": wide, "thickness": thick},
        "where": {"bottom": pick(mm(40, 120)), "centred": "front-back"},
        "cut to": {"left": "post", "right": "post"},
    }
    return {"parts": {"post": post, "rail": rail}, "joints": [{kind: pick(kinds[kind])}]}


@st.composite
def corners(pick: st.DrawFn) -> Entry:
    """A design of two boards that meet in a corner, or lie across each other."""
    some = st.fixed_dictionaries
    wide, thick = pick(mm(60, 240)), pick(mm(16, 28))
    pair = {"of": st.just("side"), "into": st.just("front")}
    kinds = {
        "dovetail": some(
            {**pair, "tails": st.integers(2, 4), "pin": mm(4, 8), "slope": st.sampled_from(["1:6", "1:8"])}
        ),
        "box joint": some({**pair, "fingers": st.integers(3, 9)}),
        "mitre": st.one_of(
            some(pair),
            some({**pair, "spline": some({"thick": mm(3, 5), "wide": mm(8, 12)})}),
            some({**pair, "keys": some({"number": st.integers(1, 3), "thick": mm(2, 4), "deep": mm(8, 12)})}),
        ),
        "rabbet": some({**pair, "deep": mm(4, thick / 2)}),
    }
    kind = pick(st.sampled_from(sorted(kinds)))
    side = {
        **{"wood": "white oak", "runs": "front-back", "thick": "left-right", "width": wide},
        **{"length": pick(mm(160, 600)), "thickness": pick(mm(12, thick))},
        "where": {"bottom": "floor", "left": 0, "front": thick if kind == "rabbet" else 0},
    }
    front = {
        **{"wood": "white oak", "runs": "left-right", "thick": "front-back", "width": wide},
        **{"length": pick(mm(160, 900)), "thickness": thick},
        "where": {"bottom": "floor", "left": 0, "front": 0},
    }
    return {"parts": {"side": side, "front": front}, "joints": [{kind: pick(kinds[kind])}]}


@st.composite
def crosses(pick: st.DrawFn) -> Entry:
    """A design of two bars in one plane that pass through each other."""
    some = st.fixed_dictionaries
    thick = pick(mm(18, 40))
    kinds = {
        "cross halving": some(
            {"of": st.just("bar"), "across": st.just("beam"), "notch in": st.sampled_from(["top", "bottom"])}
        ),
        "bridle": some({"of": st.just("bar"), "into": st.just("beam"), "thick": mm(5, thick / 2)}),
    }
    kind = pick(st.sampled_from(sorted(kinds)))
    wide, long = pick(mm(30, 80)), pick(mm(200, 900))
    bar = {
        **{"wood": "white oak", "runs": "left-right", "thick": "up-down", "thickness": thick},
        **{"width": wide, "length": long, "where": {"bottom": "floor", "left": 0, "front": 0}},
    }
    beam = {
        **{"wood": "white oak", "runs": "front-back", "thick": "up-down", "thickness": thick},
        **{"width": pick(mm(30, 80)), "length": pick(mm(200, 900))},
        "where": {
            "bottom": "floor",
            "left": pick(mm(0, long / 2)),
            "front": 0 if kind == "bridle" else -pick(mm(40, 90)),
        },
    }
    return {"parts": {"bar": bar, "beam": beam}, "joints": [{kind: pick(kinds[kind])}]}


@st.composite
def fixed(pick: st.DrawFn) -> Entry:
    """A design of a cleat on a board, held by one kind of fixing."""
    some = st.fixed_dictionaries
    thick = pick(mm(18, 30))
    row = {"through": st.just("cleat"), "into": st.just("board"), "per place": st.integers(1, 4)}
    kinds = {
        "wood screw": st.one_of(
            some({**row, "gauge": st.sampled_from([6, 8, 10]), "long": mm(thick + 8, thick + 14)}),
            some({**row, "gauge": st.just(8), "long": mm(thick + 8, thick + 12), "plugged": mm(5, 8)}),
            some({**row, "gauge": st.just(8), "long": mm(thick + 8, thick + 12), "slotted": st.just("left-right")}),
        ),
        "nail": some({**row, "size": st.just("1.2 mm"), "long": mm(thick + 8, thick + 14)}),
    }
    kind = pick(st.sampled_from(sorted(kinds)))
    long = pick(mm(200, 900))
    board = {
        **{"wood": "white oak", "runs": "left-right", "thick": "up-down", "thickness": pick(mm(20, 40))},
        **{"width": pick(mm(80, 200)), "length": long, "where": {"bottom": "floor", "left": 0, "front": 0}},
    }
    cleat = {
        **{"wood": "white oak", "runs": "left-right", "thick": "up-down", "thickness": thick},
        **{"width": pick(mm(30, 80)), "length": pick(mm(100, long))},
        "where": {"bottom": "board.top", "left": pick(mm(0, 60)), "front": pick(mm(0, 40))},
    }
    return {"parts": {"board": board, "cleat": cleat}, "fixings": [{kind: pick(kinds[kind])}]}


def drawn(edition: Edition, item: Item) -> tuple[list[Leaf], list[PartDrawing]]:
    """The sheets of a part, and the drawings on them."""
    made: list[PartDrawing] = []

    def kept(draw_it: Callable[..., PartDrawing]) -> Callable[..., PartDrawing]:
        def and_keep(*of: Any) -> PartDrawing:
            made.append(draw_it(*of))
            return made[-1]

        return and_keep

    # a drawing that was kept from an example before would not be seen here
    with pytest.MonkeyPatch.context() as patch, kept_in(None):
        for name in ("draw_part", "draw_details"):
            patch.setattr(part_sheets, name, kept(getattr(part_sheets, name)))
        return part_sheets._sheets(edition, item), made


def segments(leaf: Leaf) -> Iterator[Segment]:
    for record in leaf.body:
        if isinstance(record, Line):
            yield Segment(record.x0, record.y0, record.x1, record.y1)
        elif isinstance(record, Outline) and record.pen is not None:
            at = record.steps[0].to
            for step in record.steps:
                for to in _on_the_way(at, step):
                    if not isinstance(step, Move):
                        yield Segment(*at, *to)
                    at = to


def _on_the_way(at: Point, step: Step) -> list[Point]:
    """The end of a step, and points on the way to it where it bends."""
    if not isinstance(step, Curve):
        return [step.to]
    points = (at, step.first, step.second, step.to)
    shares = [(n + 1) / 8 for n in range(8)]
    return [
        (
            sum(w * p[0] for w, p in zip(weights, points, strict=True)),
            sum(w * p[1] for w, p in zip(weights, points, strict=True)),
        )
        for weights in [((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3) for t in shares]
    ]


def faults(leaf: Leaf) -> list[object]:
    """Text on text and text on line, from the boxes of what is drawn."""
    labels = [r for r in leaf.body if isinstance(r, Label) and r.string.strip()]
    found: list[object] = [
        (a.string, b.string) for a, b in combinations(labels, 2) if a.box.grown(-TOUCH).meets(b.box.grown(-TOUCH))
    ]
    boxes = [(label.string, label.box.grown(-2 * TOUCH)) for label in labels]
    found += [(string, s) for s in segments(leaf) for string, box in boxes if segment_meets_box(s, box)]
    return found


def check_sheets(piece: Piece, system: str) -> None:
    edition = edition_of(piece, system)
    for item in piece.items:
        part, views = piece.parts[item.shown], edition.drawn.parts[item.mark]
        leaves, drawings = drawn(edition, item)
        for leaf in leaves:
            assert faults(leaf) == [], item.name
        placed = [p for drawing in drawings for p in drawing.layout.placements]
        for drawing in drawings:
            assert overlaps(drawing.layout) == []
        told = sorted(_words(p.wish) for p in placed if not _names_a_detail(p.wish))
        assert told == sorted(_words(wish) for wish in wishes(edition, part, views)), item.name
        sheets = set_down_in(edition, item, drawings)
        assert said_twice(sheets) == [], item.name
        assert left_out(sheets, views_of(views)) == [], item.name


def _words(wish: object) -> str:
    if isinstance(wish, DimensionWish):
        return wish.text
    assert isinstance(wish, CalloutWish)
    return " / ".join(wish.lines)


def _names_a_detail(wish: object) -> bool:
    return isinstance(wish, CalloutWish) and re.fullmatch(r"DETAIL [A-H]", wish.lines[0]) is not None


@WITH_SLOW_PARTS
@given(
    st.one_of(boards(), boards(), frames(), st.one_of(corners(), crosses(), fixed())), st.sampled_from(["mm", "inch"])
)
def test_sheets_of_random_parts(design: Entry, system: str) -> None:
    """Nothing on anything else, nothing left out, nothing said twice."""
    piece = built(design)
    assume(piece is not None)
    assert piece is not None
    check_sheets(piece, system)


def said(piece: Piece) -> list[object]:
    """All that the sheets of its parts say, without how it is set out."""
    edition = edition_of(piece)
    found: list[object] = []
    for item in piece.items:
        part, views = piece.parts[item.shown], edition.drawn.parts[item.mark]
        found.append((item.name, sorted(_words(w) for w in wishes(edition, part, views)), notes(edition, item, views)))
    return found


def numbers(node: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The way to each number of a design."""
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        if isinstance(value, int | float) and not isinstance(value, bool):
            yield (*path, key)
        yield from numbers(value, (*path, key))


def stepped(node: Any, path: Sequence[Any], by: float) -> Any:
    """The same with one number changed."""
    if not path:
        return node + by
    changed = dict(node) if isinstance(node, dict) else list(node)
    changed[path[0]] = stepped(node[path[0]], path[1:], by)
    return changed


FREE = {"where"}  # a place in the piece is no size of a part
WHOLE = {"count", "per place", "size"}


@settings(WITH_SLOW_PARTS, max_examples=max(1, TRIED // 4))  # each is built again for every number it has
@given(st.one_of(boards(), frames()))
def test_no_number_changes_without_its_sheet(design: Entry) -> None:
    """Any size of a part or a joint changed by two printed steps: some sheet says something else."""
    piece = built(design)
    assume(piece is not None)
    assert piece is not None
    before = said(piece)
    for path in numbers(design):
        if FREE & set(path) or WHOLE & set(path):
            continue
        by = 1.0 if "angle" in path or "slopes" in path else 2 * STEP
        other = built(stepped(design, path, by)) or built(stepped(design, path, -by))
        if other is not None:
            assert said(other) != before, path
