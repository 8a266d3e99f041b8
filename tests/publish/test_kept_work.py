"""A set made with work kept from earlier runs is the set that is made without, and only what changed is done again."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from model.cache import kept_in
from plans.sizes import BASE
from publish.jobs import Job, read
from publish.making import made
from publish.pages import part_sheets

RAIL = Path(__file__).parent.parent.parent / "designs" / "hook_rail.yaml"
Files = dict[str, str]


def publish(design: Path, out: Path, folder: Path | None) -> tuple[Files, int]:
    """Checksums of the set's files, and how many pieces of work had to be done."""
    job = Job(design, BASE)
    with kept_in(folder) as cache:
        outcome = made(job, read(job), out, ("inch", "mm"), lambda _: None)
        done = cache.misses if cache is not None else 0
    assert not outcome.code, outcome.problems
    return {Path(file).name: sha256(Path(file).read_bytes()).hexdigest() for file in outcome.files}, done


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """The views of the part sheets that were laid out."""
    found: list[Any] = []
    lay_out: Callable[..., Any] = part_sheets.draw_part

    def counted(views: Any, *rest: Any) -> Any:
        found.append(views)
        return lay_out(views, *rest)

    monkeypatch.setattr(part_sheets, "draw_part", counted)
    return found


def test_only_what_changed_is_done_again_and_the_set_is_the_same(tmp_path: Path, drawn: list[Any]) -> None:
    rail, cache = tmp_path / "hook_rail.yaml", tmp_path / "cache"
    rail.write_bytes(RAIL.read_bytes())
    plain, _ = publish(rail, tmp_path / "plain", None)
    sheets = len(drawn)
    assert publish(rail, tmp_path / "cold", cache)[0] == plain
    del drawn[:]
    again, done = publish(rail, tmp_path / "warm", cache)
    assert (again, done, drawn) == (plain, 0, [])

    written = rail.read_text(encoding="utf-8")
    assert written.count("deep: 5/8") == 1
    rail.write_text(written.replace("deep: 5/8", "deep: 1/2"), encoding="utf-8")
    changed, _ = publish(rail, tmp_path / "changed", cache)
    assert 0 < len(drawn) < sheets, "the sheets of one part are laid out anew, in both editions"
    assert changed == publish(rail, tmp_path / "afresh", None)[0] != plain
