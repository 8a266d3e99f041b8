"""Small pieces built from the text of a design, and the porch bench built once."""

from collections.abc import Callable
from pathlib import Path

import pytest

from model.build import build
from model.piece import Part, Piece
from plans.problems import Problem
from plans.resolve import read_design, resolve
from plans.source import read_text

DESIGNS = Path(__file__).parent.parent.parent / "designs"

HEAD = """plan: Trial
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: mm
"""

BOARD = """parts:
  board:
    wood: white oak
    runs: {runs}
    thick: {thick}
    length: {size[0]!r}
    width: {size[1]!r}
    thickness: {size[2]!r}
    where: {{bottom: floor, centred: [left-right, front-back]}}
    shaping: [{shaping}]
"""

Outcome = tuple[Piece | None, tuple[Problem, ...]]


def _outcome(text: str) -> Outcome:
    """What comes of the text of a design: of its parts, joints and fixings at least; the head is put on it."""
    source, problems = read_text("trial.yaml", (text if text.startswith("plan:") else HEAD + text).encode())
    assert source is not None, problems
    design, problems = resolve(source)
    assert design is not None, problems
    return build(design)


def _built(text: str) -> Piece:
    piece, problems = _outcome(text)
    assert piece is not None and not problems, problems
    return piece


def _shaped(
    shaping: str = "",
    size: tuple[float, float, float] = (300.0, 80.0, 20.0),
    runs: str = "left-right",
    thick: str = "up-down",
) -> Part:
    """One part (length, width, thickness in mm) with `shaping`, entries in one line."""
    return _built(BOARD.format(shaping=shaping, size=size, runs=runs, thick=thick)).parts["board"]


def _misshaped(shaping: str, size: tuple[float, float, float] = (300.0, 80.0, 20.0)) -> tuple[Problem, ...]:
    """The problems of a part that cannot be shaped so."""
    piece, problems = _outcome(BOARD.format(shaping=shaping, size=size, runs="left-right", thick="up-down"))
    assert piece is None
    return problems


@pytest.fixture(scope="session")
def outcome() -> Callable[[str], Outcome]:
    return _outcome


@pytest.fixture(scope="session")
def built() -> Callable[[str], Piece]:
    return _built


@pytest.fixture(scope="session")
def shaped() -> Callable[..., Part]:
    return _shaped


@pytest.fixture(scope="session")
def misshaped() -> Callable[..., tuple[Problem, ...]]:
    return _misshaped


@pytest.fixture(scope="session")
def bench() -> Piece:
    """The porch bench, to be looked at and not changed."""
    design, problems = read_design(DESIGNS / "porch_bench.yaml")
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None and not problems, problems
    return piece
