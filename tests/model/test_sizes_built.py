"""Sizes as they come out when they are built, against the design with the numbers typed in, built by itself."""

from pathlib import Path

import pytest

from model.build import build
from model.piece import Piece
from model.sizes import sizes
from plans.resolve import resolve
from plans.sizes import Choice
from plans.source import read_text

RAIL = Path(__file__).parent.parent.parent / "designs" / "hook_rail.yaml"


def piece_of(text: str, choice: Choice | None = None) -> Piece:
    source, _ = read_text("trial.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source, choice=choice or Choice())
    assert design is not None and not problems, problems
    piece, problems = build(design)
    assert piece is not None and not problems, problems
    return piece


def test_the_table_holds_what_each_size_comes_to() -> None:
    text = RAIL.read_text(encoding="utf-8")
    made, told = sizes(piece_of(text, Choice("short")))
    assert not told and [one.name for one in made] == ["", "short", "long"]
    for one, (long, hooks) in zip(made, ((30, 5), (22, 3), (42, 7)), strict=True):
        alone = piece_of(text.replace("length: 30\n", f"length: {long}\n").replace("hooks: 5\n", f"hooks: {hooks}\n"))
        assert one.overall == pytest.approx(tuple(alone.size), abs=1e-6) and one.parts == len(alone.parts)


def test_a_size_that_cannot_be_built_is_left_out_and_told() -> None:
    text = RAIL.read_text(encoding="utf-8").replace("short: {length: 22, hooks: 3}", "short: {length: 22, hooks: 7}")
    made, (problem,) = sizes(piece_of(text))
    assert [one.name for one in made] == ["", "long"]
    assert (problem.code, problem.severity) == ("size-fails", "warning") and "short" in problem.message


def test_one_size_wants_no_table() -> None:
    text = RAIL.read_text(encoding="utf-8")
    head, rest = text.split("sizes:\n")
    assert sizes(piece_of(head + rest.split("hooks: 7}\n")[1])) == ((), ())
