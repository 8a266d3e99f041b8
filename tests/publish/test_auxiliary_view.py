"""Aslant faces seen square on: outlines and sizes are true, and nothing on the sheet lies on anything else."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from test_random_parts import drawn, faults
from trials import built, edition_of

from model.aslant_faces import AslantFace, aslant_faces
from model.piece import Part, Piece
from plans.sides import AXES
from publish.auxiliary_view import LETTERS, face_sizes, face_view, view_letter
from publish.drawing.records import Label
from publish.edition import Edition, Leaf
from publish.pages.part_sheets import LETTERS as OF_DETAILS
from publish.part_section_drawing import LETTERS as OF_SECTIONS
from publish.words.sections import view_title

SLOT, SPLINE = 3.0, 12.0
NUMBERS = 1e-3  # mm, mm2: what rounding of coordinates leaves


def frame(wide: float = 24.0, thick: float = 20.0, long: float = 240.0) -> dict[str, Any]:
    """Two strips of a frame that meet in a mitre, a spline across it."""
    front = {
        "wood": "white oak",
        **{"runs": "left-right", "thick": "front-back", "length": long, "width": wide, "thickness": thick},
        "where": {"left": "0", "front": "0", "bottom": "0"},
    }
    side = {
        "wood": "white oak",
        **{"runs": "front-back", "thick": "left-right", "length": long, "width": wide, "thickness": thick},
        "where": {"left": "0", "front": "0", "bottom": "0"},
    }
    mitre = {"of": "front strip", "into": "side strip", "spline": {"thick": SLOT, "wide": SPLINE}}
    return {"parts": {"front strip": front, "side strip": side}, "joints": [{"mitre": mitre}]}


@pytest.fixture(scope="module")
def piece() -> Piece:
    made = built(frame())
    assert made is not None
    return made


@pytest.fixture(scope="module")
def edition(piece: Piece) -> Edition:
    return edition_of(piece)


def front(piece: Piece) -> Part:
    return piece.parts["front strip"]


def the_face(part: Part) -> AslantFace:
    (face,) = aslant_faces(part)
    return face


def leaf_of(edition: Edition) -> Leaf:
    item = next(item for item in edition.piece.items if item.shown == "front strip")
    leaves, _ = drawn(edition, item)
    return leaves[0]


def test_the_outline_has_the_true_area(piece: Piece) -> None:
    """A plane figure is its projection divided by the cosine of its slope (closed formula)."""
    part = front(piece)
    face = the_face(part)
    (_, thick), across = part.thickness, abs(float(face.lie.towards[AXES.index("front-back")]))
    seen_from_front = 24.0 * (2 * thick)  # what one sees of the mitre: as long as the strip is thick, at 45 degrees
    slot = 24.0 * SLOT
    assert math.isclose(across, math.cos(math.radians(45)), rel_tol=1e-9)
    assert face.area == pytest.approx(seen_from_front / across - slot, abs=NUMBERS)


def test_the_view_is_as_large_as_the_face(piece: Piece) -> None:
    """The diagonal of a square (closed formula) by the width of the strip."""
    box = face_view(the_face(front(piece))).box
    assert (box.width, box.height) == (pytest.approx(20.0 * math.sqrt(2)), pytest.approx(24.0))


def test_sizes_are_those_between_the_places_on_the_part(piece: Piece, edition: Edition) -> None:
    """What is printed is the distance in space of what it is measured between, to half a printed step."""
    sizes = face_sizes(edition, the_face(front(piece)), "auxiliary")
    assert [size.role for size in sizes] == ["overall", "position"]
    for size in sizes:
        (measured,) = size.measures
        assert (
            abs(math.dist(measured.start, measured.end) - float(size.text)) <= float(edition.units.step_mm) / 2 + 1e-9
        )


def test_the_slot_lies_a_third_of_the_way_out(piece: Piece, edition: Edition) -> None:
    """As its callout says of its middle; the size on the face is to the nearer side of it."""
    position = face_sizes(edition, the_face(front(piece)), "auxiliary")[1]
    near, far = (np.array(p[0]) for p in (position.p0, position.p1))
    assert abs(near - far) == pytest.approx(20.0 * math.sqrt(2) / 3 - SLOT / 2, abs=NUMBERS)


def test_the_sheet_has_the_view_and_its_arrow_and_nothing_overlaps(edition: Edition) -> None:
    leaf = leaf_of(edition)
    texts = [record.string for record in leaf.body if isinstance(record, Label)]
    assert sum(text.startswith(view_title("V")) for text in texts) == 1
    assert texts.count("V") == 1
    assert faults(leaf) == []


def test_a_face_that_nothing_is_set_out_on_has_no_view() -> None:
    plain = frame()
    del plain["joints"][0]["mitre"]["spline"]
    made = built(plain)
    assert made is not None
    assert list(aslant_faces(front(made))) == []


def test_letters_are_not_those_of_anything_else() -> None:
    assert not set(LETTERS) & {*OF_DETAILS, *OF_SECTIONS}
    assert view_letter("V") != "V"
