"""Designs that read well and cannot be built, or do not fit: exactly the problems they say, exactly there."""

from dataclasses import replace
from pathlib import Path

import cadquery as cq
import pytest

from model.build import build
from model.checks import CHECKS, check_fit
from model.codes import CODES
from model.eased import ready
from plans.codes import CODES as READING_CODES
from plans.problems import Problem, has_errors
from plans.resolve import read_design

BAD = Path(__file__).parent.parent / "bad"
# a kernel that lies cannot be written in a design: see test_solid_that_is_not_sound
# and a size that fails is only found when the others are built for the table of them: see test_sizes_built
# and a piece too large to be worked out takes its time: see test_steps
WITHOUT_A_FILE = {"unsound-solid", "size-fails", "order-as-written"}

Expected = list[tuple[str, int, int]]


def expected(path: Path) -> Expected:
    """What the first line says, `# expect: CODE LINE COLUMN, ...`; nothing where it is said elsewhere."""
    first = path.read_bytes().splitlines()[:1]
    if not first or not first[0].startswith(b"# expect:"):
        return []
    entries = first[0].decode().removeprefix("# expect:").split(",")
    return sorted((code, int(line), int(column)) for code, line, column in (entry.split() for entry in entries))


FILES = [path for path in sorted(BAD.glob("*.yaml")) if any(code in CODES for code, _, _ in expected(path))]


def found(path: Path) -> tuple[Problem, ...]:
    design, problems = read_design(path)
    assert design is not None, problems
    piece, built = build(design)
    assert (piece is None) == has_errors(built)
    return (*problems, *built, *(check_fit(piece) if piece else ()))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_wrong_piece(path: Path) -> None:
    problems = found(path)
    assert sorted((p.code, p.place.line, p.place.column) for p in problems) == expected(path)
    lines = path.read_text(encoding="utf-8").splitlines()
    for problem in problems:
        assert problem.message and problem.hint
        assert problem.place.text == lines[problem.place.line - 1]


def test_every_code_has_a_wrong_piece() -> None:
    shown = {code for path in FILES for code, _, _ in expected(path)}
    assert set(CODES) - shown == WITHOUT_A_FILE
    assert not set(CODES) & set(READING_CODES)


def test_every_check_has_its_code() -> None:
    assert set(CHECKS) <= set(CODES)


def test_solid_that_is_not_sound(shaped, built) -> None:
    text = """parts:
  peg:
    {wood: white oak, runs: left-right, thick: up-down, length: 100, width: 30, thickness: 20,
     where: {bottom: floor, centred: [left-right, front-back]}, shaping: [hole: {side: top, diameter: 8}]}
"""
    piece = built(text)
    peg = piece.parts["peg"]
    assert not check_fit(piece)
    two = cq.Compound.makeCompound([peg.sharp, peg.sharp.moved(cq.Location((0, 50, 0)))])
    grown = cq.Solid.makeBox(100, 30, 21)
    for wrong in (replace(peg, sharp=two), replace(peg, easing=ready(grown, ()))):
        (problem,) = check_fit(replace(piece, parts={"peg": wrong}))
        assert (problem.code, problem.parts, problem.place.line) == ("unsound-solid", ("peg",), 9)
