"""Whole designs read: the examples, pairs of values, the two systems, all problems at once."""

from pathlib import Path

import pytest

from plans.design import Design
from plans.fields import CutTarget, Position, Term
from plans.order import build_order
from plans.problems import Problem
from plans.resolve import read_design, resolve
from plans.source import read_text
from plans.units import System

DESIGNS = Path(__file__).parent.parent.parent / "designs"

PEG = """plan: Peg
revision: 2
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: inch
lengths:
  board: {inch: 3/4, mm: 20}
  twice: board * 2
  long: {inch: 10, mm: 25 cmm}
angles: {splay: 8}
counts: {pegs: 3}
parts:
  peg:
    wood: White Oak
    runs: up-down
    thick: front-back
    width: {inch: twice + 1/4, mm: twice + 5}
    thickness: board
    where: {left: 1, centred: front-back}
    lean: {foot to: {left: splay / 2}}
    cut to: {top: peg_height, bottom: floor}
    mirror: left-right
  cap:
    wood: white oak
    runs: left-right
    thick: up-down
    length: 10 in
    width: peg.width + 2 mm
    thickness: board
    where: {bottom: peg.top, centred: {left-right: peg, front-back: null}}
joints:
  - mortise and tenon: {of: peg, into: cap, thick: 1/4, long: 1/2, ends: top, count: pegs - 1}
""".replace("25 cmm", "250").replace("peg_height", "12")


def read(text: str, system: System | None = None) -> tuple[Design | None, tuple[Problem, ...]]:
    source, problems = read_text("peg.yaml", text.encode())
    assert source is not None and not problems
    return resolve(source, system)


def good(text: str, system: System | None = None) -> Design:
    design, problems = read(text, system)
    assert design is not None, problems
    assert not problems
    return design


@pytest.mark.parametrize("path", sorted(DESIGNS.glob("*.yaml")), ids=lambda path: path.stem)
@pytest.mark.parametrize("system", [None, "inch", "mm"])
def test_the_examples_read_well(path: Path, system: System | None) -> None:
    design, problems = read_design(path, system)
    assert not [p for p in problems if p.severity == "error"]
    assert design is not None
    assert design.stem == path.stem
    assert {name for _, name in build_order(design.spec)} - set(design.spec.assemblies) == set(design.parts)


def test_everything_is_a_number_in_millimetres_or_degrees() -> None:
    peg = good(PEG).parts["peg"]
    assert peg.thickness == 19.05
    assert peg.width == pytest.approx(1.75 * 25.4)
    assert peg.lean is not None and peg.lean.foot_to == {"left": 4.0}
    assert peg.where.left == Position((), 25.4)
    assert peg.cut_to == {"top": CutTarget(None, Position((), 304.8)), "bottom": CutTarget(None, Position((), 0.0))}
    assert peg.where.centred == {"front-back": None}
    assert peg.mirror == ("left-right",)


def test_places_of_sides_and_sizes_of_parts() -> None:
    cap = good(PEG).parts["cap"]
    assert cap.where.bottom == Position((Term("peg", "top", 1.0),), 0.0)
    assert cap.where.centred == {"left-right": "peg", "front-back": None}
    assert cap.width == pytest.approx(1.75 * 25.4 + 2)


def test_the_other_member_of_a_pair_makes_the_hard_metric_design() -> None:
    design = good(PEG, "mm")
    peg = design.parts["peg"]
    assert (peg.thickness, peg.width) == (20.0, 45.0)
    assert design.parts["cap"].length == 250.0  # 10 in: no pair, so by the rule of a free length
    assert design.parts["cap"].width == 47.0  # said in mm, and stays so: peg.width + 2 mm
    assert design.spec.lengths == {"board": 20.0, "twice": 40.0, "long": 250.0}
    assert (design.system, design.spec.units) == ("mm", "mm")
    assert design.written.data["units"] == "inch"
    assert design.units().length(peg.width) == "45"
    assert design.units("inch").length(peg.width) == "1 3⁄4"


def test_named_values_are_kept() -> None:
    spec = good(PEG).spec
    assert spec.lengths["board"] == 19.05
    assert spec.angles == {"splay": 8.0}
    assert spec.counts == {"pegs": 3.0}
    assert spec.joints[0].count == 2


def test_places_of_joints_and_shaping() -> None:
    design = good(PEG)
    place = design.joint_place(0, "long")
    assert place.text[place.column - 1 :].startswith("1/2, ends")
    assert design.place("parts", "peg", "lean", "foot to").line == 20


@pytest.mark.parametrize("system", ["inch", "mm"])
def test_both_members_of_a_pair_are_checked(system: System) -> None:
    _, problems = read(PEG.replace("mm: twice + 5", "mm: twise + 5"), system)
    assert [(p.code, p.place.line, p.place.column) for p in problems] == [("unknown-name", 17, 36)]
    assert problems[0].hint == "did you mean 'twice'?"


def test_a_value_that_is_wrong_is_told_once() -> None:
    _, problems = read(PEG.replace("splay: 8", "splay: 8 mm"))
    assert [(p.code, p.message) for p in problems] == [
        ("wrong-unit", "angles.splay: an angle is needed here, and this comes to a length")
    ]


def test_all_problems_at_once_each_in_its_place() -> None:
    text = (
        PEG.replace("twice: board", "twice: bord")
        .replace("runs: up-down", "runs: upwards")
        .replace("of: peg", "of: pegg")
    )
    text = text.replace("length: 10 in", "length: 10 in + 3 deg") + "glu: hide glue\n"
    _, problems = read(text)
    assert [(p.code, p.place.line) for p in problems] == [
        ("unknown-name", 8),
        ("unknown-word", 15),
        ("wrong-unit", 27),
        ("unknown-part", 32),
        ("unknown-key", 33),
    ]


def test_checks_run_on_what_can_be_read() -> None:
    # one part is unreadable, the other is settled twice
    text = PEG.replace("wood: White Oak", "wood: [oak]").replace(
        "where: {bottom: peg.top,", "where: {bottom: peg.top, top: 3,"
    )
    codes = [p.code for p in read(text)[1]]
    assert codes == ["wrong-value", "position-twice"]


def test_long_chains_of_names_are_refused_without_a_traceback() -> None:
    chain = "".join(f"  n{n}: n{n + 1}\n" for n in range(3000)) + "  n3000: 1\n"
    _, problems = read(PEG.replace("lengths:\n", "lengths:\n" + chain))
    assert problems
    assert {p.code for p in problems} == {"formula-too-long"}


def test_stems_are_safe_in_a_path(tmp_path: Path) -> None:
    file = tmp_path / "a b;c.. $(x).yaml"
    file.write_text(PEG)
    design, _ = read_design(file)
    assert design is not None
    assert design.stem == "a-b-c-x"


def test_parts_are_built_after_those_they_need() -> None:
    design, _ = read_design(DESIGNS / "porch_bench.yaml")
    assert design is not None
    order = [name for _, name in build_order(design.spec)]
    for before, after in [
        ("seat slat", "leg"),
        ("leg", "long rail"),
        ("long rail", "cross bearer"),
        ("shelf bearer", "shelf slat"),
    ]:
        assert order.index(before) < order.index(after)
