"""The maker's own words on the page: sizes from the model, and nothing in them is run or marked up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.piece import Piece
from model.steps import plan_of
from plans.own_steps import NAMED
from plans.resolve import resolve
from plans.source import read_text
from publish.edition import Edition
from publish.words.own_steps import filled_in
from publish.words.steps import step_words

HEAD = """plan: Trial
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: inch
lengths: {shelf: 5}
parts:
  leg: {wood: white oak, runs: up-down, thick: front-back, length: 20, width: 1 3/4, thickness: 1 1/2,
    where: {bottom: floor, centred: [left-right, front-back]}}
steps:
"""


def edition_of(piece: Piece, system: str = "inch") -> Edition:
    return Edition(piece, plan_of(piece).steps, None, piece.design.units(system))  # type: ignore[arg-type]


@pytest.mark.parametrize(("system", "said"), [("inch", "1 3⁄4 in"), ("mm", "44.5 mm")])
def test_a_size_named_is_printed_in_the_units_of_the_set(bench_piece: Piece, system: str, said: str) -> None:
    """1 3/4 in = 44.45 mm, to the nearest half."""
    edition = edition_of(bench_piece, system)
    assert filled_in(edition, "The {leg} is {leg.width} wide.") == f"The leg C is {said} wide."


def test_the_words_of_the_bench_stand_in_its_steps(bench_piece: Piece) -> None:
    edition = edition_of(bench_piece)
    words = {words.title: words for step in edition.steps for words in [step_words(edition, step)]}
    assert any("at 17 1⁄4 in" in text for text in words["Make a rod"].text)
    taper = words["Bevel and taper"]
    assert taper.caution and taper.text[-1].startswith("Chalk the two inner faces of every leg C")
    seat = words["Screw down the seat"].text
    assert any("26" in text for text in seat) and seat[-1].startswith("Begin with the middle slat")


@given(st.text(alphabet=st.characters(blacklist_characters="{}"), max_size=60))
def test_what_is_not_in_braces_stands_as_it_is(bench_piece: Piece, text: str) -> None:
    assert filled_in(edition_of(bench_piece), text) == text


@pytest.mark.parametrize(
    "words", ["{leg.__class__}", "{leg.width.real}", "{0}", "{leg!r}", "{leg.width:>999999}", "{}", "{{leg}}x{nobody}"]
)
def test_braces_reach_nothing_but_names_and_sizes(words: str) -> None:
    source, _ = read_text("trial.yaml", f'{HEAD}  - {{work: mill, also: "{words}"}}\n'.encode())
    assert source is not None
    _, problems = resolve(source)
    assert [problem.code for problem in problems] == ["unknown-name"]


def test_markup_is_only_text(bench_piece: Piece) -> None:
    text = '<b>bold</b> <img src="file:///x"/> &amp; [link](javascript:x)'
    assert filled_in(edition_of(bench_piece), text) == text
    assert not NAMED.findall(text)
