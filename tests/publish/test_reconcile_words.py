"""The reconcile command as a maker meets it, and what a buyer is told of the piece that was built."""

from __future__ import annotations

import hashlib
import json
from fractions import Fraction
from pathlib import Path

import pytest
from typer.testing import CliRunner

from model.build import build
from model.sequence import assembly
from model.steps import steps
from plans.resolve import resolve
from plans.sizes import Choice
from plans.source import read_text
from plans.units import UnitSystem
from publish.changes import compare
from publish.cli import app
from publish.drawing.records import Label
from publish.drawn import Drawn
from publish.edition import Edition
from publish.pages import history
from publish.record import read_back, record, written
from publish.words.as_built import AS_BUILT, buyer_notes
from publish.words.changes import sections

BOX = """plan: Plinth
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: inch
wood: white oak
lengths:
  high: 20
  wide: 30
parts:
  post:
    {runs: up-down, thick: front-back, length: high, width: 3, thickness: 2,
     where: {bottom: floor, left: -wide / 2, centred: front-back}, mirror: left-right}
  top:
    {runs: left-right, thick: up-down, length: wide, width: 8, thickness: 1,
     where: {bottom: post.top, centred: [left-right, front-back]}}
joints:
  - glued face: {of: top, to: post, count: 2}
glue: wood glue
"""
MEASURED = """measured:
  - {size: post.length, is: 20 1/8}
  - {overall: height, is: 21 1/8, decided: adopt}
  - {size: top.width, is: 8 1/4, decided: slip}
  - {size: top.thickness, is: 15/16, decided: note, note: "The {top} was planed twice"}
  - {overall: width, is: 30 1/64}
did differently:
  - {what: "Both ends of the {top} were left sawn, {post.width} short of a fair line", decided: note}
  - {what: The underside was left rough.}
"""


def told(tmp_path: Path, text: str, *more: str) -> tuple[int, str, str]:
    """Exit code, standard output and error of the command; the file is the same before and after."""
    path = tmp_path / "plinth.yaml"
    path.write_text(text, encoding="utf-8")
    before = (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns)
    done = CliRunner().invoke(app, ["reconcile", str(path), *more])
    assert (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns) == before
    assert list(tmp_path.iterdir()) == [path]
    assert done.exception is None or isinstance(done.exception, SystemExit)
    return done.exit_code, done.stdout, done.stderr


def test_what_differs_is_told_with_the_edit(tmp_path: Path) -> None:
    code, out, err = told(tmp_path, BOX + MEASURED)
    assert (code, err) == (1, "")
    assert out.startswith("Plinth: five places measured, four of them not as drawn.\n")
    assert f"{tmp_path}/plinth.yaml:8:9: high: 20 -> 20 1/8\n" in out
    for words in ("a slip, not followed", "kept as a note for the buyer", "to be adopted", "The design file was not"):
        assert words in out
    ranked = [line for line in out.split("\n") if "times the give or take" in line]
    times = [float(line.split(" times the give")[0].rsplit(" ", 1)[1]) for line in ranked]
    assert times == sorted(times, reverse=True) and len(times) == 4
    assert "line 28: The underside was left rough. (nothing decided yet" in out


def test_the_same_for_a_program(tmp_path: Path) -> None:
    code, out, _ = told(tmp_path, BOX + MEASURED, "--json")
    data = json.loads(out)
    (proposal,) = data["proposals"]
    assert code == 1 and not data["agrees"] and data["left"] == []
    assert {key: proposal[key] for key in ("name", "line", "column", "from", "to")} == {
        **{"name": "high", "line": 8, "column": 9},
        **{"from": "20", "to": "20 1/8"},
    }
    assert proposal["value"] == pytest.approx(20.125 * 25.4) and sorted(proposal["explains"]) == [0, 1]
    heights = [place for place in data["places"] if place["line"] in (21, 22)]
    assert [place["drawn as proposed"] for place in heights] == pytest.approx([place["measured"] for place in heights])


def test_a_design_that_agrees(tmp_path: Path) -> None:
    text = BOX + MEASURED.replace("  - {what: The underside was left rough.}\n", "")
    code, out, _ = told(tmp_path, text.replace("high: 20", "high: 20 1/8"))
    assert code == 0 and "->" not in out and "not touched" not in out


def test_nothing_measured(tmp_path: Path) -> None:
    code, out, _ = told(tmp_path, BOX)
    assert code == 0 and "nothing is measured" in out and "`measured:`" in out


def test_a_place_that_is_not_there(tmp_path: Path) -> None:
    """It is told, with its line and a cure; the others are compared all the same."""
    code, out, err = told(
        tmp_path, BOX + "measured:\n  - {size: top.tenon length, is: 3}\n  - {overall: width, is: 31}\n"
    )
    assert (
        code == 1
        and "plinth.yaml:21:5: error: measured 1: a top has no 'tenon length'" in err
        and "did you mean" in err
    )
    assert "wide: 30 -> 31" in out


@pytest.mark.parametrize(
    ("text", "code"),
    [(BOX.replace("length: high", "length: hihg"), 1), (BOX.replace("count: 2", "count: 3"), 1), ("{", 2)],
)
def test_a_design_that_is_wrong(tmp_path: Path, text: str, code: int) -> None:
    """In its words, in its solids, and as a file."""
    found, out, err = told(tmp_path, text + MEASURED)
    assert found == code and out == "" and "plinth.yaml:" in err and "Traceback" not in err


def edition(text: str, system: str) -> Edition:
    source, _ = read_text("plinth.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    units = UnitSystem("inch", Fraction(1, 16)) if system == "inch" else UnitSystem("mm", Fraction(1, 2))
    return Edition(piece, steps(piece, assembly(piece)), Drawn.__new__(Drawn), units)


@pytest.mark.parametrize(
    ("system", "measured", "short"),
    [("inch", "measures 15⁄16 in, where these plans have 1 in.", "3 in"), ("mm", "measures 24 mm, where", "76 mm")],
)
def test_the_buyer_is_told_in_the_units_of_the_set(system: str, measured: str, short: str) -> None:
    """15/16 in is 23.8 mm, and 3 in 76.2 mm: 24 and 76 to the nearest half."""
    notes = buyer_notes(edition(BOX + MEASURED, system))
    assert len(notes) == 2 and measured in notes[0] and notes[0].startswith("The thickness of the top ")
    assert notes[0].endswith(" was planed twice.") and "{" not in "".join(notes)
    assert short in notes[1] and notes[1].endswith(".")


def test_only_what_was_decided_is_printed() -> None:
    """Slips, adopted and open differences, and notes on what the design has by now, are nobody else's business."""
    agreeing = MEASURED.replace("is: 15/16", "is: 1")
    (only,) = buyer_notes(edition(BOX + agreeing, "inch"))
    assert "left sawn" in only


def test_notes_run_on_to_further_pages() -> None:
    many = "".join(f"  - {{what: Number {n} was done otherwise., decided: note}}\n" for n in range(120))
    leaves = history.leaves(edition(BOX + "did differently:\n" + many, "inch"))
    texts = " ".join(record.string for leaf in leaves for record in leaf.body if isinstance(record, Label))
    assert len({leaf.key for leaf in leaves}) == len(leaves) > 1 and AS_BUILT in texts
    assert all(f"Number {n} was" in texts for n in range(120)) and "Revisions" in texts


def test_a_size_of_the_design_has_no_notes() -> None:
    """What was measured was measured on the piece as it stands, and on no longer one."""
    text = BOX.replace("parts:\n", "sizes:\n  long: {wide: 40}\nparts:\n", 1) + MEASURED
    source, _ = read_text("plinth.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source, choice=Choice("long"))
    assert design is not None and not problems
    assert (design.spec.measured, design.spec.did_differently) == ((), ())


def test_earlier_buyers_are_told_of_new_notes() -> None:
    one, other = (edition(BOX + tail, "inch") for tail in ("", MEASURED))
    before, after = (record(each.piece, [(each, ())]) for each in (one, other))
    changes = compare(before, after)
    (section,) = sections(changes)
    assert section.heading == AS_BUILT and section.lines == tuple(buyer_notes(other)) and not changes.nothing
    assert sections(compare(after, before))[0].lines[0].startswith("No longer said: The thickness of the top")
    assert read_back(written(after).encode()) == after
