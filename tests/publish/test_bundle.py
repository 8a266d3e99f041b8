"""A published set on disk: its manifest, its bytes, and that it is whole or not there at all."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import subprocess
import sys
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from typing import Any

import pypdf
import pytest
import yaml

from model.board_plan import board_plans
from model.build import build
from model.piece import Piece
from plans.resolve import resolve
from plans.source import read_text
from publish import bundle, in_place
from publish.drawing.records import Sheet
from publish.edition import Edition
from publish.version import Version
from publish.writers.cut_list_csv import cut_list_csv

DESIGNS = Path(__file__).parent.parent.parent / "designs"
Made = tuple[Path, dict[str, Edition], dict[str, list[Sheet]]]
HOSTILE = {
    "markup": "<img src='/etc/passwd'/> &amp; &lt; </para><a href='file:///etc/passwd'>a</a> {0} %s $(id) \\n {{x}}",
    "controls": "a\x01b\x07c\x1b[31md\u200be \u05e9\u05dc\u05d5\u05dd \u202eabc\u202c "
    "oak \U0001fab5\U0001f468\u200d\U0001f469 e\u0301",
    "long word": "Donau" * 20,
}


def hostile(entry: dict[str, Any], text: str) -> None:
    """`text` wherever a maker may write words."""
    entry.update(plan=f"Rail {text}", maker=text, about=text * 6, licence=text * 3, glue=text)
    entry["finish"] = {"name": text, "coats": 2, "note": text}
    entry["supplies"] = [{"item": text, "count": 5, "note": text}]
    entry["revisions"] = [{"revision": 1, "date": "2026-11-20", "what": text}]
    for part in entry["parts"].values():
        part["note"] = text


def small_piece(change: Callable[[dict[str, Any]], None], name: str = "rail.yaml") -> Piece:
    """The hook rail with something else written in it, in a file called `name`."""
    whole = yaml.load((DESIGNS / "hook_rail.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)
    change(whole)
    source, problems = read_text(name, yaml.safe_dump(whole, allow_unicode=True).encode())
    assert source is not None, problems
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    return piece


@pytest.fixture
def drawn_already(monkeypatch: pytest.MonkeyPatch, rail_made: Made) -> None:
    """The pictures of the hook rail are not made again: nothing here hangs on them."""
    drawn = rail_made[1]["inch"].drawn
    monkeypatch.setattr(bundle, "draw_all", lambda piece, progress: drawn)


@pytest.fixture
def blank_pages(monkeypatch: pytest.MonkeyPatch, drawn_already: None) -> None:
    """Nor are its pages."""
    monkeypatch.setattr(bundle, "leaves", lambda edition: [])
    monkeypatch.setattr(bundle, "write_pdf", lambda path, sheets, document: path.write_bytes(b"%PDF"))


def test_the_manifest_lists_every_file_as_it_is(published: Made) -> None:
    folder, editions, _ = published
    design = editions["inch"].piece.design
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    assert {path.name for path in folder.iterdir()} == {"manifest.json", *(file["name"] for file in manifest["files"])}
    for file in manifest["files"]:
        assert set(file) == {"name", "kind", "units", "pages", "sha256"}
        assert file["sha256"] == hashlib.sha256((folder / file["name"]).read_bytes()).hexdigest()
        pages = len(pypdf.PdfReader(folder / file["name"]).pages) if file["name"].endswith(".pdf") else None
        assert file["pages"] == pages
    stem = design.stem
    kinds = {file["name"]: (file["kind"], file["units"]) for file in manifest["files"]}
    assert {
        f"{stem}-inch.pdf": ("plan set", "inch"),
        f"{stem}-mm.pdf": ("plan set", "mm"),
        f"{stem}-cut-list-inch.csv": ("cut list", "inch"),
        f"{stem}-cut-list-mm.csv": ("cut list", "mm"),
        **{f"{edition.piece.design.file_stem}.step": ("solid model", "mm") for edition in editions.values()},
    }.items() <= kinds.items()
    assert (manifest["design"], manifest["revision"]) == (design.spec.plan, design.spec.revision)
    assert manifest["plansheaf"] == version("plansheaf")


def test_the_manifest_counts_what_the_piece_has(published: Made) -> None:
    """Counted again from the pages: a sheet a mark; and from the spreadsheet: a quantity a mark."""
    folder, editions, pages = published
    piece = editions["inch"].piece
    counts = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))["counts"]
    rows = list(csv.DictReader((folder / f"{piece.design.stem}-cut-list-mm.csv").open(encoding="utf-8", newline="")))
    made = [row for row in rows if row["mark"].isalpha()]  # A1, A2: the boards that A is glued up from
    supplied = [item for item in piece.items if piece.parts[item.shown].spec.supplied]
    others = sum(item.quantity for item in supplied)
    assert counts["parts"] == sum(int(row["quantity"]) for row in made) + others == len(piece.parts)
    assert (
        counts["marks"]
        == sum(sheet.level == 1 and sheet.key.startswith("part-") for sheet in pages["mm"])
        == len(made) + len(supplied)
    )
    said = [joint.get("count") for joint in _joints_said(piece.design.stem)]
    unsaid = Counter(joint.number for joint in piece.joints)
    assert counts["joints"] == sum(unsaid[n] if count is None else count for n, count in enumerate(said))
    assert counts["problems"] == 0
    assert counts["fixings"] == sum(len(fixing.points) for step in editions["mm"].steps for fixing in step.fixings)
    layouts = [laid for plan in board_plans(piece) for laid in plan.layout.boards]
    assert counts["boards"] + counts["sheets"] == sum(laid.count for laid in layouts if not laid.board.on_hand)


def _joints_said(stem: str) -> list[dict[str, int]]:
    """The joints of an example design, each with the count its maker wrote."""
    whole = yaml.safe_load((DESIGNS / f"{stem}.yaml").read_text(encoding="utf-8"))
    return [fields for entry in whole["joints"] for fields in entry.values()]


def test_the_same_design_gives_the_same_bytes(tmp_path: Path, rail_set: Path) -> None:
    """Two processes that differ in hash seed, time zone, language and folder."""
    program = (
        "import sys, locale; from publish.cli import app; sys.path.pop(0); locale.setlocale(locale.LC_ALL, '');"
        "app(['publish', sys.argv[1], '--out', 'made'])"
    )
    worlds = [
        {"PYTHONHASHSEED": "0", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8"},
        {"PYTHONHASHSEED": "1", "TZ": "America/St_Johns", "LC_ALL": "C", "OPENBLAS_NUM_THREADS": "2"},
    ]
    running, made = [], []
    for number, world in enumerate(worlds):
        folder = tmp_path / f"world {number}"
        folder.mkdir()
        design = DESIGNS / "hook_rail.yaml"
        written = folder / "hook_rail.yaml"
        written.write_bytes(design.read_bytes())
        given = [str(design), written.name][number]
        command = [sys.executable, "-c", program, given]
        environment = {**os.environ, "PYTHONPATH": str(DESIGNS.parent), **world}
        running.append(subprocess.Popen(command, cwd=folder, env=environment, stdout=subprocess.PIPE))
        made.append(folder / "made" / "hook_rail" / "r1")
    assert [process.wait(300) for process in running] == [0, 0]
    for process in running:
        assert process.stdout is not None
        process.stdout.close()
    names = sorted(path.name for path in rail_set.iterdir())
    for folder in made:
        assert sorted(path.name for path in folder.iterdir()) == names
        different = [name for name in names if (folder / name).read_bytes() != (rail_set / name).read_bytes()]
        assert not different


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.usefixtures("blank_pages")
@pytest.mark.parametrize("writer", ["write_pdf", "write_step", "cut_list_csv", "manifest"])
@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt(), ValueError("a bug")])
def test_an_interrupted_run_leaves_the_last_good_set(
    writer: str, error: BaseException, rail_piece: Piece, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "hook_rail" / "r1"
    old.mkdir(parents=True)
    (old / "hook_rail-inch.pdf").write_bytes(b"the last good one")
    before = snapshot(tmp_path)

    def fail(*_: object) -> str:
        raise error

    monkeypatch.setattr(bundle, writer, fail)
    with pytest.raises(type(error)):
        bundle.publish([Version(rail_piece, ("inch",))], tmp_path)
    assert snapshot(tmp_path) == before
    assert [path.name for path in old.parent.iterdir()] == ["r1"]


@pytest.mark.usefixtures("blank_pages")
def test_a_failed_move_puts_the_old_set_back(
    rail_piece: Piece, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "hook_rail" / "r1"
    old.mkdir(parents=True)
    (old / "kept").write_bytes(b"old")
    rename = os.rename

    def refuse(source: Path, target: Path) -> None:
        if Path(target) == old and not str(source).endswith("before"):
            raise OSError(18, "Invalid cross-device link")
        rename(source, target)

    monkeypatch.setattr(in_place, "_exchanged", lambda a, b: False)
    monkeypatch.setattr(os, "rename", refuse)
    with pytest.raises(OSError, match="cross-device"):
        bundle.publish([Version(rail_piece, ("mm",))], tmp_path)
    monkeypatch.undo()
    assert snapshot(tmp_path) == {"hook_rail/r1/kept": b"old"}


@pytest.mark.usefixtures("blank_pages")
def test_a_new_set_takes_the_place_of_the_old(rail_versions: list[Version], tmp_path: Path) -> None:
    old = tmp_path / "hook_rail" / "r1"
    (old / "deep").mkdir(parents=True)
    (old / "deep" / "left over").write_bytes(b"old")
    other = tmp_path / "hook_rail" / "r0"
    other.mkdir()
    (other / "kept").write_bytes(b"an earlier revision")
    folder = bundle.publish(rail_versions[1:], tmp_path)
    names = {"hook_rail-mm.pdf", "hook_rail-cut-list-mm.csv", "hook_rail-mm.step"}
    names |= {"hook_rail-mm-fit-report.pdf", "hook_rail-mm-changed-numbers.pdf"}
    names |= {"hook_rail-r1-mm.zip", "manifest.json", "record.json"}
    names |= {"hook_rail-mm-templates-a4.pdf", "hook_rail-mm-templates-whole.pdf", "hook_rail-mm-template-A-front.dxf"}
    assert folder == old and {path.name for path in old.iterdir()} == names
    assert {path.name for path in old.parent.iterdir()} == {"r0", "r1"} and (other / "kept").exists()


@pytest.mark.parametrize("start", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("x")', "'=1"])
def test_no_cell_of_the_cut_list_is_a_formula(start: str, rail_made: Made) -> None:
    """Cells that begin with one of these characters are run by spreadsheets (OWASP, CSV injection; from memory)."""

    def change(whole: dict[str, Any]) -> None:
        for part in whole["parts"].values():
            part["note"] = start

    piece = small_piece(change)
    assert {part.spec.note for part in piece.parts.values()} == {start}
    written = cut_list_csv(replace(rail_made[1]["inch"], piece=piece))
    assert "\ufeff" not in written and written.endswith("\r\n")
    rows = list(csv.reader(io.StringIO(written, newline=""), strict=True))
    assert len(rows) == 3 and len({len(row) for row in rows}) == 1
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    assert all(start in row[-1] for row in rows[1:])


@pytest.mark.usefixtures("drawn_already")
@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_words_are_printed_plainly(kind: str, tmp_path: Path) -> None:
    piece = small_piece(lambda whole: hostile(whole, HOSTILE[kind]))
    folder = bundle.publish([Version(piece, ("inch",))], tmp_path)
    reader = pypdf.PdfReader(folder / "rail-inch.pdf", strict=True)
    printed = "".join("".join(page.extract_text() for page in reader.pages).split())
    assert "root:" not in printed
    plain = {"markup": "<imgsrc='/etc/passwd'/>&amp;&lt;</para><a", "controls": "abc[31mde", "long word": "Donau" * 10}
    assert plain[kind] in printed
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    assert manifest["design"] == piece.design.spec.plan
    for page in reader.pages:
        assert all("/A" not in note.get_object() for note in page.get("/Annots", []))


@pytest.mark.usefixtures("blank_pages")
@pytest.mark.parametrize("name", ["...yaml", "..yaml", ".yaml", "-rf.yaml", "a b'\"é$(id).yaml", "a\nb.yaml"])
def test_a_set_stays_in_its_folder(name: str, tmp_path: Path) -> None:
    """Whatever the design file is called, and whatever the plan is."""
    out = tmp_path / "deep" / "out"
    piece = small_piece(lambda whole: whole.update(plan="../../up: and /etc/passwd\\..\\away"), name)
    folder = bundle.publish([Version(piece, ("mm",))], out)
    assert folder.resolve().parent.parent == out.resolve()
    assert [path for path in tmp_path.rglob("*") if path.is_file() and path.parent != folder] == []
    for path in (*folder.iterdir(), folder.parent):
        assert not path.name.startswith((".", "-")) and not set(path.name) & set("\n\"$<>|:*?\\/' ")
