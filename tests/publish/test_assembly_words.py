"""What the steps say of an assembly: made apart under its name, and put into the rest as one."""

from pathlib import Path

from model.build import build
from model.checks import check_fit
from model.sequence import assembly
from model.steps import steps
from plans.problems import has_errors
from plans.resolve import read_design
from publish.edition import Edition
from publish.words.assembly import stage_words

DRAWERS = """plan: Trial
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: mm
parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 260, width: 220, thickness: 20,
     where: {bottom: floor, left: -200, centred: front-back}, mirror: left-right}
  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 220, thickness: 20,
     where: {centred: front-back}, cut to: {left: side, right: side},
     repeat: {along: up-down, count: 3, between: {bottom: floor, top: side.top}}}
  front:
    {wood: white oak, runs: left-right, thick: front-back, thickness: 18, where: {front: side.front},
     cut to: {left: side, right: side, bottom: shelf, top: shelf}, gap: 2}
  tray:
    {wood: white oak, runs: left-right, thick: up-down, length: 340, width: 150, thickness: 12,
     where: {bottom: front.bottom, front: front.back, centred: left-right}}
assemblies:
  drawer: {parts: [front, tray], repeat: {along: up-down, count: 2, spacing: 70, from: bottom}}
joints:
  - glued face: {of: shelf, to: side, count: 6}
  - glued face: {of: tray, to: front, count: 2}
"""


def test_drawers_are_put_together_apart_and_slid_in(tmp_path: Path) -> None:
    # three shelves of 20 in 260 leave four gaps of 50, so that the middles lie 70 apart
    (tmp_path / "drawers.yaml").write_text(DRAWERS)
    design, problems = read_design(tmp_path / "drawers.yaml")
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    assert not has_errors(check_fit(piece, as_printed=False))
    every = steps(piece, assembly(piece))
    edition = Edition(piece, every, None, design.units())  # type: ignore[arg-type]
    said = [(step, stage_words(edition, step)) for step in every if step.kind == "stage"]
    *_, (making, made), (_, last) = said
    assert last.title == "Slide in the drawers"
    assert last.text == (f"Slide the two drawers of step {every.index(making) + 1} in from the front.",)
    assert made.text[0] == "Make two of these, alike." and made.text[-1] == "That completes each drawer."
    assert not last.caution
