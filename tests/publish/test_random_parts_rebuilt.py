"""Parts nobody thought of, made again from what their sheets say: nothing missing, nothing wrong.

As `test_random_parts.py`; `SHEETS_TRIED=500` tries so many. An edge is shaped in one way at most: a cove along an edge
that is then sawn to a curve is another part when it is run after the sawing, and that is told by the steps.
"""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from test_random_parts import WITH_SLOW_PARTS, boards, frames
from test_rebuild import ELSEWHERE, LEFT, agree, by_its_sheet, not_joined
from trials import Entry, built, edition_of

from publish.drawing.wishes import DimensionWish
from publish.part_wishes import wishes

EDGED = {"taper", "bevel", "arc", "relieved ends", "cove", "thumbnail", "curve"}
# not made again besides what no design is: the second where one thing is sunk in another
LEFT_TOO = ("a crown is not made here yet", "there is no wood at")


@WITH_SLOW_PARTS
@given(st.one_of(boards(), boards(), frames()), st.sampled_from(["mm", "inch"]))
def test_random_parts_made_from_their_sheets_are_the_same(design: Entry, system: str) -> None:
    shaped = {kind for entry in design["parts"].get("board", {}).get("shaping", ()) for kind in entry}
    assume(len(shaped & EDGED) <= 1)
    piece = built(design)
    assume(piece is not None)
    assert piece is not None
    edition = edition_of(piece, system)
    for item in piece.items:
        sheet, made, reasons = by_its_sheet(edition, item)
        assert not_joined(edition, item, sheet) == []
        reasons -= ELSEWHERE
        assert all(reason.startswith((*LEFT, *LEFT_TOO)) for reason in reasons), reasons
        assert reasons or agree(edition, piece.parts[item.shown], made), item.name


@pytest.mark.parametrize(("long", "wide"), [(160, 186), (186, 160), (160, 160)])
def test_a_part_wider_than_long_states_both(long: float, wide: float) -> None:
    """Overall sizes run between corners that may lie across from each other; each is told along its own axis."""
    board = {
        **{"wood": "white oak", "runs": "left-right", "thick": "front-back", "thickness": 26},
        **{"length": long, "width": wide, "where": {"bottom": "floor", "centred": ["left-right", "front-back"]}},
        "shaping": [
            {"recess": {"side": "back", "long": 68.5, "wide": 34.5, "deep": 2, "at": {"bottom": 10, "left": 20}}}
        ],
    }
    piece = built({"parts": {"board": board}})
    assert piece is not None
    edition = edition_of(piece)
    every = wishes(edition, piece.parts["board"], edition.drawn.parts["A"])
    over_all = {(w.direction, w.text) for w in every if isinstance(w, DimensionWish) and w.role == "overall"}
    assert {("h", f"{long}"), ("v", f"{wide}")} <= over_all
