"""The tutorial of the README works as it stands: every design text in it reads, and the whole of it builds."""

import re
from pathlib import Path

import pytest

from plans.resolve import read_design

ROOT = Path(__file__).parents[1]
BLOCKS = re.findall(r"```yaml\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)


def whole() -> str:
    """The file a reader has at the end of the tutorial."""
    start, shelf, joined, counts, holes = BLOCKS
    return f"{start}{holes}\n{shelf}\n{joined}\n{counts}"


@pytest.mark.parametrize("text", [BLOCKS[0], whole()], ids=["first", "whole"])
def test_the_tutorial_reads(text: str, tmp_path: Path) -> None:
    file = tmp_path / "rail.yaml"
    file.write_text(text, encoding="utf-8")
    design, problems = read_design(file)
    assert design is not None
    assert problems == ()


def test_the_tutorial_builds(tmp_path: Path) -> None:
    from model.build import build
    from model.checks import check_fit

    file = tmp_path / "rail.yaml"
    file.write_text(whole(), encoding="utf-8")
    design, _ = read_design(file)
    assert design is not None
    piece, problems = build(design)
    assert piece is not None
    assert problems == ()
    assert check_fit(piece) == ()
    assert {part.kind for part in piece.parts.values()} == {"back board", "shelf"}


def test_its_mistake_is_answered_as_it_says(tmp_path: Path) -> None:
    file = tmp_path / "rail.yaml"
    file.write_text(BLOCKS[0].replace("    length: length\n", "    length: lenght\n"), encoding="utf-8")
    _, problems = read_design(file)
    assert [(p.code, p.place.line, p.place.column) for p in problems] == [("unknown-name", 18, 13)]
    assert "length" in problems[0].hint
