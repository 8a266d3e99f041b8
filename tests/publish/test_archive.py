"""The archive a buyer gets, read back with the library's own reader and with `unzip -t`'s check, CRC by CRC."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

from plans.resolve import read_design
from publish.writers.archive import read_me, write_archive
from publish.writers.manifest import Published

RAIL = Path(__file__).parent.parent.parent / "designs" / "hook_rail.yaml"


def test_it_holds_the_set_and_nothing_of_the_makers(rail_set: Path) -> None:
    with zipfile.ZipFile(rail_set / "hook_rail-r1-inch-mm.zip") as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        listed = json.loads((rail_set / "manifest.json").read_text(encoding="utf-8"))["files"]
        makers = ("fit report", "changed numbers", "archive", "record")
        wanted = {file["name"] for file in listed if file["kind"] not in makers}
        assert set(names) == {f"hook_rail-r1/{name}" for name in (*wanted, "READ-ME.txt")}
        for name in wanted:
            assert archive.read(f"hook_rail-r1/{name}") == (rail_set / name).read_bytes()
        text = archive.read("hook_rail-r1/READ-ME.txt").decode("utf-8")
    assert all(f"  {name}\r\n" in text for name in wanted)
    assert text.startswith("Hook rail\r\nPlans by Saltmarsh Lane Joinery, revision 1, 2026-11-20\r\n")
    assert "inches and millimetres" in text and "One buyer, one workshop." in text
    assert "of two pieces" in text
    assert max(map(len, text.split("\r\n"))) <= 78 and "\n" not in text.replace("\r\n", "")


def test_words_of_the_maker_stay_words() -> None:
    """Characters that steer a terminal, and line breaks, are taken out (ECMA-48 control sequences, from memory)."""
    design, _ = read_design(RAIL)
    assert design is not None
    spec = design.spec.model_copy(update={"plan": "Rail\x1b[31m\nred", "licence": "a\x07b\r\nc"})
    design = type(design)(design.stem, spec, design.source, design.step_inch, design.step_mm, design.system)
    text = read_me(design, ("mm",), [])
    assert text.startswith("Rail [31m red\r\n") and "a b c" in text
    assert not {c for c in text if not c.isprintable()} - {"\r", "\n"}


def test_the_same_set_is_the_same_bytes(tmp_path: Path) -> None:
    design, _ = read_design(RAIL)
    assert design is not None
    made = []
    for day in ("one", "two"):
        folder = tmp_path / day
        folder.mkdir()
        (folder / "a.pdf").write_bytes(b"%PDF" * 100)
        files = [Published("a.pdf", "plan set", "inch", 3)]
        made.append((folder / write_archive(folder, design, ("inch",), files)).read_bytes())
    assert made[0] == made[1]
