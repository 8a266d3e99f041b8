"""A set of two pieces: the hook rail in inches as written, and re-made in millimetres."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import cadquery as cq
import pypdf
import pytest

from plans.hard import Change
from plans.problems import Place, Problem
from publish.drawing.records import Sheet
from publish.edition import Edition
from publish.jobs import FAULTY, FINE, Read
from publish.making import built
from publish.version import Version
from publish.words.guide import reading
from publish.words.remade import change_words, group, told_once, where

Made = tuple[Path, dict[str, Edition], dict[str, list[Sheet]]]
HERE = Place("rail.yaml", 3, 1, "x")


def printed(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(path).pages).split())


def test_each_edition_is_of_its_own_piece(rail_made: Made) -> None:
    """30 in and 1 in over: 31 in; 750 mm and 25 mm: 775 mm, where the same piece would read 787.5."""
    inch, mm = rail_made[1]["inch"].piece, rail_made[1]["mm"].piece
    assert inch.size[0] == pytest.approx(31 * 25.4) and mm.size[0] == pytest.approx(775)
    assert (inch.design.system, mm.design.system) == ("inch", "mm")
    assert inch.design.printed_in == ("inch",) and mm.design.printed_in == ("mm",)


def test_each_has_its_own_solid_model(rail_made: Made) -> None:
    folder, editions, _ = rail_made
    for system, edition in editions.items():
        box = cq.importers.importStep(str(folder / f"hook_rail-{system}.step")).val().BoundingBox()
        assert (box.xlen, box.ylen, box.zlen) == pytest.approx(edition.piece.size, abs=0.01)


def test_the_manifest_counts_both(rail_set: Path) -> None:
    manifest = json.loads((rail_set / "manifest.json").read_text(encoding="utf-8"))
    assert set(manifest["counts re-made"]) == set(manifest["counts"])
    assert manifest["counts re-made"]["parts"] == manifest["counts"]["parts"] == 2
    kinds = {file["name"]: (file["kind"], file["units"]) for file in manifest["files"]}
    assert kinds["hook_rail-mm-changed-numbers.pdf"] == ("changed numbers", "mm")
    assert kinds["hook_rail-inch-fit-report.pdf"][1] == "inch" and kinds["hook_rail-mm-fit-report.pdf"][1] == "mm"
    assert "hook_rail-inch-changed-numbers.pdf" not in kinds


def test_a_set_of_one_piece_has_no_such_files(bench_set: Path) -> None:
    manifest = json.loads((bench_set / "manifest.json").read_text(encoding="utf-8"))
    assert "counts re-made" not in manifest
    assert "changed numbers" not in {file["kind"] for file in manifest["files"]}


def test_the_report_lists_every_number_that_changed(rail_made: Made) -> None:
    """A row a change: its line, what was written, what it is now, by how much (from the printed columns)."""
    folder, editions, _ = rail_made
    changes = editions["mm"].piece.design.changes
    text = printed(folder / "hook_rail-mm-changed-numbers.pdf")
    for change in changes:
        by = " ".join(word for word in change_words(change) if word)
        assert f"{change.place.line} {where(change.path)} {change.written} {change.now} {by}".strip() in text
    tidy = sum(change.rule == "free" for change in changes)
    assert text.count("tidy step") == tidy > 5
    assert f"{len(changes)} numbers of the design file changed" in text


def test_the_buyer_is_told_not_to_mix_them(rail_made: Made, bench_made: Made) -> None:
    for system, other in (("inch", "millimeters"), ("mm", "inches")):
        told = [line for line in reading(rail_made[1][system]) if "keep their sheets" in line]
        assert len(told) == 1 and other in told[0]
        assert not [line for line in reading(bench_made[1][system]) if "keep their sheets" in line]


def test_the_metric_set_reads_as_if_designed_in_millimetres(rail_made: Made) -> None:
    """Every stated size is a whole millimetre, and stock and screws are asked for as they are sold there."""
    text = printed(rail_made[0] / "hook_rail-mm.pdf")
    assert "Black cherry, 27 mm" in text and "4 × 45 mm wood screw" in text
    assert "4/4" not in text and "6.5" not in text and "25.5" not in text
    inch = printed(rail_made[0] / "hook_rail-inch.pdf")
    assert "4/4" in inch and "27 mm" not in inch


@pytest.mark.parametrize(
    ("path", "of", "said"),
    [
        (("lengths", "board"), "Lengths", "board"),
        (("parts", "seat slat", "where", "left"), "Parts", "seat slat: where, left"),
        (("parts", "leg", "shaping", 0, "taper", "to"), "Parts", "leg: taper, to"),
        (("parts", "seat", "shaping", 0, "curve", "through", 1, "in"), "Parts", "seat: curve, through 2, in"),
        (("joints", 3, "mortise and tenon", "shoulders", "top"), "Joints", "mortise and tenon: shoulders, top"),
        (("fixings", 0, "wood screw", "long"), "Fixings", "wood screw: long"),
        (("boards", 1, "width"), "Boards", "2: width"),
        (("saw", "kerf"), "Saw", "kerf"),
        (("assemblies", "drawer", "opens", "front"), "Assemblies", "drawer: opens, front"),
    ],
)
def test_where_a_number_stands(path: tuple[str | int, ...], of: str, said: str) -> None:
    assert (group(path), where(path)) == (of, said)


def test_by_how_much() -> None:
    """3/4 in is 19.05 mm; 20 mm is 0.95 mm, 5.0 % more (arithmetic)."""
    change = Change(("lengths", "board"), HERE, "3/4", "20 mm", "stock", Fraction("19.05"), Fraction(20))
    assert change_words(change) == ("+0.95", "+5.0")
    back = Change(("lengths", "board"), HERE, "20", "3/4 in", "stock", Fraction(20), Fraction("19.05"))
    assert change_words(back) == ("−0.95", "−4.8")
    assert change_words(Change(("fixings", 0), HERE, "8", "4 mm", "bought")) == ("", "")


def test_only_the_pieces_that_are_wanted_are_built(rail_versions: list[Version]) -> None:
    """What is wrong in the other units alone keeps no inch edition from being made; where both are wanted, both."""
    wrong = Problem("wrong-size", "error", "it cannot be turned", HERE)
    design = rail_versions[0].piece.design
    other = Read(None, (wrong,), FAULTY, printed_in=("mm",), remade_in="mm")
    done = Read(design, (), FINE, other, printed_in=("inch",))
    ready = built(done, lambda _: None, ("inch",))
    assert [one.systems for one in ready.versions] == [("inch",)] and (ready.code, ready.problems) == (FINE, ())
    ready = built(done, lambda _: None)
    assert (ready.versions, ready.code) == ((), FAULTY)
    assert [problem.message for problem in ready.problems] == ["re-made in millimetres: it cannot be turned"]


def test_a_problem_of_both_pieces_is_told_once_and_one_of_the_other_says_so() -> None:
    note = Problem("caul-needed", "note", "clamps need blocks", HERE)
    wrong = Problem("joint-fails", "error", "it breaks out", HERE)
    assert told_once([(None, (note,)), ("mm", (note, wrong))]) == (
        note,
        Problem("joint-fails", "error", "re-made in millimetres: it breaks out", HERE),
    )
    assert [one.message for one in told_once([("inch", (note,))])] == ["re-made in inches: clamps need blocks"]
