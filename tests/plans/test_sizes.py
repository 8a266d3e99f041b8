"""Sizes: a size reads as the same file would with its numbers typed in, and its parts struck out.

The other side of every comparison is made by editing the text, or the plain YAML (PyYAML), without our reader.
"""

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from plans.design import Design
from plans.resolve import read_design, resolve
from plans.sizes import BASE, Choice, size_names
from plans.source import Source, read_source, read_text

DESIGNS = Path(__file__).parent.parent.parent / "designs"
RAIL, BENCH = DESIGNS / "hook_rail.yaml", DESIGNS / "porch_bench.yaml"


def source_of(text: str) -> Source:
    source, problems = read_text("trial.yaml", text.encode())
    assert source is not None and not problems, problems
    return source


def read(text: str, choice: Choice = BASE) -> Design:
    design, problems = resolve(source_of(text), choice=choice)
    assert design is not None and not problems, problems
    return design


def same_but_for_the_name(a: Design, b: Design) -> bool:
    return a.spec.model_copy(update={"plan": "", "sizes": {}}) == b.spec.model_copy(update={"plan": "", "sizes": {}})


@settings(max_examples=25, deadline=None)
@given(long=st.integers(20, 60), hooks=st.integers(1, 9))
def test_values_stand_where_they_were_typed(long: int, hooks: int) -> None:
    text = RAIL.read_text(encoding="utf-8")
    typed = text.replace("length: 30\n", f"length: {long}\n").replace("hooks: 5\n", f"hooks: {hooks}\n")
    asked = read(text, Choice(None, (("length", str(long)), ("hooks", str(hooks)))))
    named = read(
        text.replace("short: {length: 22, hooks: 3}", f"short: {{length: {long}, hooks: {hooks}}}"), Choice("short")
    )
    assert same_but_for_the_name(asked, read(typed)) and same_but_for_the_name(named, read(typed))


def test_parts_that_are_left_out() -> None:
    raw = yaml.load(BENCH.read_text(encoding="utf-8"), yaml.BaseLoader)
    gone = set(raw["sizes"].pop("without shelf")["leave out"])
    assert gone == {"shelf slat", "shelf bearer"}
    for section in ("joints", "fixings"):
        raw[section] = [
            entry for entry in raw[section] if not gone & {str(v) for v in next(iter(entry.values())).values()}
        ]
    raw["loads"] = [load for load in raw["loads"] if load["part"] not in gone]
    raw["parts"] = {name: part for name, part in raw["parts"].items() if name not in gone}
    assert same_but_for_the_name(
        read(BENCH.read_text(encoding="utf-8"), Choice("without shelf")), read(yaml.safe_dump(raw, sort_keys=False))
    )


def test_a_size_has_a_name_and_a_folder_of_its_own() -> None:
    text = RAIL.read_text(encoding="utf-8")
    assert size_names(source_of(text)) == ("short", "long")
    assert (read(text).stem, read(text).spec.plan) == ("trial", "Hook rail")
    short = read(text, Choice("short"))
    assert (short.stem, short.spec.plan) == ("trial-short", "Hook rail, short")
    to_measure = read(text, Choice("short", (("length", "24"),)))
    assert to_measure.spec.plan == "Hook rail, short, made to measure"
    assert to_measure.spec.lengths["length"] == pytest.approx(24 * 25.4) and to_measure.spec.counts["hooks"] == 3


def test_a_name_is_never_a_way_out_of_the_folder() -> None:
    text = RAIL.read_text(encoding="utf-8").replace("  short:", '  "../../x":')
    stem = read(text, Choice("../../x")).stem
    assert "/" not in stem and ".." not in stem


def test_what_is_wrong_with_a_size_is_told_where_it_stands() -> None:
    text = RAIL.read_text(encoding="utf-8").replace("short: {length: 22", "short: {length: 22 deg")
    design, problems = resolve(source_of(text))
    (problem,) = problems
    line = text.splitlines()[problem.place.line - 1]
    assert line.startswith("  short: ") and line[problem.place.column - 1 :].startswith("22 deg")
    assert "in the size 'short'" in problem.message and design is not None


def test_a_size_that_is_not_there() -> None:
    design, (problem,) = read_design(RAIL, choice=Choice("shrot"))
    assert design is None and (problem.code, problem.hint) == ("size-not-named", "did you mean 'short'?")
    bare = (
        RAIL.read_text(encoding="utf-8").split("sizes:")[0] + RAIL.read_text(encoding="utf-8").split("hooks: 7}\n")[1]
    )
    _, (problem,) = resolve(source_of(bare), choice=Choice("short"))
    assert problem.code == "size-not-named" and problem.hint


def test_every_size_of_every_design_reads() -> None:
    for path in sorted(DESIGNS.glob("*.yaml")):
        source, _ = read_source(path)
        assert source is not None
        for name in size_names(source):
            assert read_design(path, choice=Choice(name))[1] == ()
