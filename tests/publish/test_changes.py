"""What differs between two sets, against differences found another way: of the solids, and of the cut lists.

The other way knows nothing of features, sizes or marks: two solids are the same where the geometry kernel gives them
the same volume, surface, and moments about their own axes; two rows of the cut list where their texts are the same.
"""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pypdf
import pytest
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from model.build import build
from model.marks import lettered
from model.piece import Item, Piece
from model.sequence import assembly
from model.steps import steps
from plans.resolve import resolve
from plans.source import read_text
from plans.units import UnitSystem
from publish.changes import Changes, compare
from publish.drawn import Drawn
from publish.edition import Edition
from publish.notice import write_notice
from publish.record import SetRecord, read_back, record, written
from publish.words.changes import changes_json, kept_marks, sections
from publish.writers.cut_list_csv import cut_list_csv

RAIL = (Path(__file__).parent.parent.parent / "designs" / "hook_rail.yaml").read_text(encoding="utf-8")
CLEAT = """  cleat:
    {wood: black cherry, stock: 4/4, runs: left-right, thick: front-back, length: 20, width: 1 1/2, thickness: 3/4,
     where: {top: back board.top, back: back board.front, centred: left-right}}

joints:
"""
# what is written, what instead, and the kinds of part whose solids that changes
EDITS: tuple[tuple[str, str], ...] = (
    ("length: 30\n", "length: 32\n"),
    ("length: 30\n", "length: 30 1/16\n"),
    ("width: 4 1/2", "width: 4 3/4"),
    ("  board: 3/4\n", "  board: 13/16\n"),
    ("length: length + 1", "length: length + 2"),
    ("    width: 4\n", "    width: 4 1/4\n"),
    ("wide: 3/4, deep: 1/4}", "wide: 3/4, deep: 3/16}"),
    ("edge: bottom, wide: 3/4", "edge: bottom, wide: 5/8"),
    ("bottom front, left front, right front], size: 1/8", "bottom front, left front, right front], size: 3/16"),
    ("[bottom front, left front, right front]", "[bottom front, left front]"),
    ("diameter: 3/16, at: {top: 1 1/4}", "diameter: 1/4, at: {top: 1 1/4}"),
    ("diameter: 3/16, at: {top: 1 1/4}", "diameter: 3/16, at: {top: 1 1/2}"),
    ("count: 2, spacing: 16", "count: 2, spacing: 15"),
    ("diameter: 1/8, deep: 5/8", "diameter: 1/8, deep: 11/16"),
    ("hooks: 5\n", "hooks: 4\n"),
    ("spacing: 5 1/2", "spacing: 5"),
    ("long: 6, wide: 2 1/4", "long: 7, wide: 2 1/4"),
    ("wide: 2 1/4, deep: 1/4, corners", "wide: 2 1/4, deep: 5/16, corners"),
    ("corners: 1/4", "corners: 3/8"),
    ("at: {right: 1 1/2, front: 3/4}", "at: {right: 2, front: 3/4}"),
    ("[top front, bottom front], radius: 1/8", "[top front, bottom front], radius: 3/16"),
    ("[top front, bottom front], radius: 1/8", "[top front], radius: 1/8"),
    ("gauge: 8, long: 1 3/4", "gauge: 8, long: 1 1/2"),
    ("gauge: 8, long: 1 3/4", "gauge: 6, long: 1 3/4"),
    ("per place: 3", "per place: 4"),
    ("wood: black cherry", "wood: white oak"),
    ("joints:\n", CLEAT),
    ("item: coat hook with one screw", "item: brass coat hook with one screw"),
    ("coats: 2", "coats: 3"),
    ("    note: The rabbet", "    show face: front\n    note: The rabbet"),
    ("stock: 4/4\n    runs: left-right\n    thick: up-down", "stock: 5/4\n    runs: left-right\n    thick: up-down"),
)


@cache
def piece_of(text: str) -> Piece:
    source, _ = read_text("rail.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source)
    assert design is not None and not problems, problems
    piece, problems = build(design)
    assert piece is not None and not problems, problems
    return piece


@cache
def edition_of(text: str) -> Edition:
    """In inches; its pictures are not asked for."""
    piece = piece_of(text)
    return Edition(piece, steps(piece, assembly(piece)), Drawn.__new__(Drawn), piece.design.units())


@cache
def record_of(text: str) -> SetRecord:
    return record(piece_of(text), [(edition_of(text), ())])


def changes_of(before: str, after: str) -> Changes:
    return compare(record_of(before), record_of(after))


def measured(piece: Piece) -> dict[str, tuple[float, ...]]:
    """Of every part by name: volume, surface and moments of inertia about the axes of its own centre."""
    found = {}
    for name, part in piece.parts.items():
        whole, skin = GProp_GProps(), GProp_GProps()
        BRepGProp.VolumeProperties_s(part.eased.wrapped, whole)
        BRepGProp.SurfaceProperties_s(part.eased.wrapped, skin)
        inertia = whole.MatrixOfInertia()
        about = [inertia.Value(i, j) for i in (1, 2, 3) for j in range(1, i + 1)]
        found[name] = (whole.Mass(), skin.Mass(), *about)
    return found


def rows_of(text: str) -> dict[str, str]:
    rows = csv.DictReader(io.StringIO(cut_list_csv(edition_of(text)), newline=""))
    return {row["part"]: json.dumps(row) for row in rows}


@pytest.mark.parametrize(("written_so", "instead"), EDITS)
def test_what_changed_is_told_and_nothing_else(written_so: str, instead: str) -> None:
    assert RAIL.count(written_so) == 1
    after = RAIL.replace(written_so, instead)
    changes = changes_of(RAIL, after)
    old, new = measured(piece_of(RAIL)), measured(piece_of(after))
    solids = {
        name
        for name in old.keys() | new.keys()
        if name not in old or name not in new or not np.allclose(old[name], new[name], rtol=1e-7, atol=1e-3)
    }
    sized = {name for change in changes.changed if change.sizes or change.others for name in change.after.parts}
    told = sized | {name for part in (*changes.added, *changes.removed) for name in part.parts}
    assert solids <= told
    # a part that keeps its solid is told only for what else it says: its wood, its stock, its face
    kept = {
        name: change
        for change in changes.changed
        for name in change.after.parts
        if name in told - solids and (change.sizes or not change.others)
    }
    assert not kept
    rows = {
        name
        for name in rows_of(RAIL).keys() | rows_of(after).keys()
        if rows_of(RAIL).get(name) != rows_of(after).get(name)
    }
    assert {name.split(",")[0] for name in rows} <= {
        part.name for part in (*changes.added, *changes.removed, *(c.after for c in changes.changed))
    }
    assert not changes.nothing


def test_the_empty_edit_gives_an_empty_notice(tmp_path: Path) -> None:
    """Nor does another revision number, or a comment, change anything that an earlier buyer has."""
    for after in (RAIL, RAIL.replace("revision: 1", "revision: 2"), f"# a comment\n{RAIL}"):
        changes = changes_of(RAIL, after)
        assert changes.nothing and sections(changes) == []
        write_notice(tmp_path / "notice.pdf", changes)
        (page,) = pypdf.PdfReader(tmp_path / "notice.pdf").pages
        assert "Nothing changed" in page.extract_text()


def test_every_edit_goes_back() -> None:
    for written_so, instead in EDITS[:6]:
        after = RAIL.replace(written_so, instead)
        there, back = changes_of(RAIL, after), changes_of(after, RAIL)
        assert {(c.name, c.before, c.after) for one in there.changed for c in one.sizes} == {
            (c.name, c.after, c.before) for one in back.changed for c in one.sizes
        }


def test_letters_stay_where_the_design_keeps_them() -> None:
    """A part put before the others takes the first letter; kept letters are printed as they are to be written."""
    first = RAIL.replace("parts:\n", "parts:\n" + CLEAT.removesuffix("\njoints:\n"))
    changes = changes_of(RAIL, first)
    assert {(c.before.mark, c.after.mark) for c in changes.moved} == {("A", "B"), ("B", "C")}
    assert [part.mark for part in changes.added] == ["A"]
    kept = changes_of(RAIL, f"{first}{kept_marks(changes)}\n")
    assert not kept.moved and kept_marks(kept) == "" and [part.mark for part in kept.added] == ["C"]


def test_a_record_reads_back() -> None:
    one = record_of(RAIL)
    assert read_back(written(one).encode()) == one
    for wrong in (b"", b"{}", b"[1]", b"\xff", written(one).replace('"plan"', '"plam"').encode()):
        assert read_back(wrong) is None


@pytest.mark.parametrize("back", [False, True])
def test_of_two_pieces_the_one_in_the_other_units_is_compared_too(back: bool) -> None:
    """Its own numbers alone changed: it is told in its own units, and the piece as written is not said to differ."""
    text = RAIL.replace("length: 30\n", "length: {inch: 30, mm: 750}\n")
    sets = [pair_of(text), pair_of(text.replace("mm: 750", "mm: 770"))]
    before, after = reversed(sets) if back else sets
    changes = compare(before, after)
    assert not changes.nothing and not changes.changed and changes.remade is not None
    said = {section.heading: section.lines for section in sections(changes)}
    assert set(said) == {"The piece, millimetre edition", "Parts that changed, millimetre edition"}
    more = "(20 mm shorter)" if back else "(20 mm longer)"
    assert any(more in line for line in said["Parts that changed, millimetre edition"])
    assert json.loads(changes_json(changes))["remade"]["before"]["plan"] == "Hook rail"
    assert compare(before, before).nothing
    assert read_back(written(before).encode()) == before


def pair_of(text: str) -> SetRecord:
    """The record of a set of two pieces, in inches as written and re-made in millimetres."""
    source, _ = read_text("rail.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source, "mm")
    assert design is not None and not problems, problems
    piece, problems = build(design)
    assert piece is not None and not problems, problems
    edition = Edition(piece, steps(piece, assembly(piece)), Drawn.__new__(Drawn), design.units())
    return replace(record_of(text), remade=record(piece, [(edition, ())]))


def test_said_as_the_pages_say_it() -> None:
    """30 in + 2 in, and 5 hooks of the piece that are 4: arithmetic."""
    changes = changes_of(RAIL, RAIL.replace("length: 30\n", "length: 32\n").replace("hooks: 5\n", "hooks: 4\n"))
    said = {section.heading: section.lines for section in sections(changes)}
    assert (
        "Length 30 in, now 32 in (2 in longer)" in said["The piece"] and "Hooks 5, now 4 (1 less)" in said["The piece"]
    )
    assert any("overall length 31 in, now 33 in (2 in longer)" in line for line in said["Parts that changed"])
    assert "Coat hook with one screw: 5, now 4" in said["Hardware"]
    assert json.loads(changes_json(changes))["said"]["Hardware"] == list(said["Hardware"])
    assert record_of(RAIL).units("mm") == UnitSystem("mm", piece_of(RAIL).design.step_mm)


@pytest.mark.parametrize(
    ("kept", "marks"),
    [
        ({}, ["A", "B", "C", "D"]),
        ({"slat": ["B"]}, ["B", "A", "C", "D"]),
        ({"slat": ["A", "C"], "rail": ["B"]}, ["A", "B", "C", "D"]),
        ({"slat": ["D", "A"]}, ["D", "B", "A", "C"]),
    ],
)
def test_a_kind_in_several_forms_keeps_their_letters(kept: dict[str, list[str]], marks: list[str]) -> None:
    """A slat, a rail, another slat and a leg: the letters written for the slats are theirs in turn, the rest go on."""
    items = [
        Item("", name, (f"{name} {n}",), (), f"{name} {n}") for n, name in enumerate(["slat", "rail", "slat", "leg"])
    ]
    found = {item.shown: item.mark for item in lettered(items, kept)}
    assert [found[item.shown] for item in items] == marks
