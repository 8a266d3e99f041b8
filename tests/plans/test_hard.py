"""A design re-made in the other units: pairs as they are, rules for the rest, places kept, what changed told."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from plans.design import Design
from plans.hard import Change, remade
from plans.number_kinds import written_lengths
from plans.resolve import resolve
from plans.scope import open_scope
from plans.sizes import Choice
from plans.source import Source, read_source, read_text
from plans.units import INCH, System

NUMBER = re.compile(r"-?[\d ./]+( mm| in)?")  # one literal and nothing else
DESIGNS = sorted((Path(__file__).parent.parent.parent / "designs").glob("*.yaml"))
BOX = """plan: Box
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: inch
lengths:
  long: 18
  board: 3/4
  half: board / 2
  play: 1/16
  stone: {inch: 1 1/4, mm: 30}
  metric: 19 mm
  far: 3 ft
angles: {splay: 8}
counts: {boards: 3}
sizes:
  tall: {long: 20}
wood: white oak
parts:
  side:
    stock: 4/4
    runs: left-right
    thick: front-back
    length: long
    width: 4
    thickness: board
    where: {bottom: floor, front: 0, centred: left-right}
    shaping:
      - hole: {side: front, diameter: 3/16, at: {bottom: half + 1/4}, count: 2, spacing: 4}
      - chamfer: {arrises: long, size: 1/8}
    mirror: front-back
  knob:
    stock: 8/4
    runs: front-back
    thick: left-right
    length: boards * 1
    width: 1 1/8
    thickness: 1 1/8
    where: {bottom: floor, front: side.back + 2, centred: left-right}
    shaping:
      - turned: {from: front, diameters: [{at: 0, diameter: 3/4}, {at: 1/2, diameter: 1 1/8}]}
  lid:
    sheet: hardwood plywood
    stock: 1/4
    runs: left-right
    thick: up-down
    width: 4
    where: {bottom: side.top, centred: front-back}
    cut to: {left: side.left, right: side.right}
    gap: {left: play, right: 1/32}
fixings:
  - wood screw: {through: lid, into: side, gauge: 8, long: 1 1/4, per place: 2}
  - butt hinge: {of: lid, on: side, size: 2 in, knuckle: back, inset: 6}
boards:
  - {stock: 4/4, width: 6, length: 96}
  - {stock: 4/4, width: 7, length: 50, on hand: yes, defects: [{from: 3, to: 4}]}
"""


def source_of(text: str) -> Source:
    source, problems = read_text("box.yaml", text.encode())
    assert source is not None and not problems
    return source


def read(text: str, system: System, choice: Choice | None = None) -> Design:
    design, problems = resolve(source_of(text), system, choice or Choice())
    assert design is not None, problems
    return design


def test_every_kind_of_number_by_its_rule() -> None:
    design = read(BOX, "mm")
    side, knob, lid = (design.parts[name] for name in ("side", "knob", "lid"))
    assert design.spec.lengths == {
        **{"long": 450, "board": 20, "half": 10, "play": 2, "stone": 30, "metric": 19, "far": 900}
    }
    assert design.spec.angles == {"splay": 8} and design.spec.counts == {"boards": 3}
    assert (side.stock, side.length, side.width, side.thickness) == ("27 mm", 450, 100, 20)
    hole, chamfer = side.shaping
    assert (hole.diameter, hole.at, hole.spacing, chamfer.size) == (5, {"bottom": 16}, 100, 3)  # type: ignore[union-attr]
    assert (knob.length, knob.width, knob.thickness) == (75, 28, 28)  # three of an inch each
    assert [one.diameter for one in knob.shaping[0].diameters] == [19, 28]  # type: ignore[union-attr]
    assert (lid.stock, lid.thickness, lid.gap) == ("6 mm", 6, {"left": 2, "right": 1})
    screw, hinge = design.spec.fixings
    assert (screw.gauge, screw.diameter, screw.long) == (None, 4, 30)  # type: ignore[union-attr]
    assert (hinge.size, hinge.inset) == ("50 mm", 150)  # type: ignore[union-attr]
    bought, have = design.spec.boards
    assert (bought.stock, bought.width, bought.length) == ("27 mm", 150, 2400)
    # a board that lies there has the size it has
    assert (have.stock, have.width, have.length, have.defects[0].start) == ("4/4", 177.8, 1270, pytest.approx(76.2))


def test_the_list_says_each_number_that_changed_and_where() -> None:
    changes = read(BOX, "mm").changes
    told = {(change.place.line, change.written, change.now) for change in changes}
    lines = BOX.splitlines()
    for change in changes:  # the place is where it was written
        assert lines[change.place.line - 1] == change.place.text and change.written in change.place.text
        assert change.before != change.after or change.before is None
    assert (7, "18", "450 mm") in told and (11, "1 1/4", "30") in told
    assert (29, "half + 1/4", "half + 6 mm") in told
    assert (21, "4/4", "27 mm") in told
    by_place = {change.path: change for change in changes}
    long = by_place["lengths", "long"]
    assert (long.before, long.after, long.rule) == (18 * INCH, Fraction(450), "free")
    assert by_place["lengths", "stone"].rule == "pair"
    assert by_place["fixings", 0, "wood screw", "gauge"].rule == "bought"
    assert ("lengths", "metric") not in by_place and ("lengths", "half") not in by_place


def test_a_hole_in_a_formula_is_told_as_the_rule_of_a_free_length() -> None:
    (change,) = (one for one in read(BOX, "mm").changes if one.path[-1] == "bottom" and "shaping" in one.path)
    assert (change.rule, change.before, change.after) == ("free", INCH / 4, 6)


@pytest.mark.parametrize("path", DESIGNS, ids=lambda path: path.stem)
def test_the_list_of_every_example_is_what_differs_between_the_two_designs(path: Path) -> None:
    """Each length the schema finds is read in both: those that are one literal, and differ, are those that are told."""
    source, _ = read_source(path)
    assert source is not None
    own: System = "mm" if source.data["units"] == "mm" else "inch"
    there: System = "inch" if own == "mm" else "mm"
    (before, _), (after, problems) = resolve(source), resolve(source, there)
    assert before is not None and after is not None and not problems
    hard, changes = remade(source, there)
    assert changes == after.changes
    told = {change.path for change in changes if change.before is not None}
    for name, value in before.spec.lengths.items():
        literal = source.written(("lengths", name))  # what follows by a formula is not told
        changed = abs(after.spec.lengths[name] - value) > 1e-9
        assert (("lengths", name) in told) == (changed and (literal is None or NUMBER.fullmatch(literal) is not None))
    found = 0
    for one in written_lengths(source.root):
        written, now = source.written(one.path), hard.written(one.path)
        if written is not None and now is not None and NUMBER.fullmatch(written):
            found += 1
            differs = abs(length(written, own) - length(now, there)) > 1e-9
            assert (one.path in told) == differs, (one.path, written, now)
    assert found > 10


def length(text: str, system: System) -> float:
    return float(open_scope({"units": system}).number(text, "length").value)


def test_the_other_way() -> None:
    metric = BOX.replace("units: inch", "units: mm").replace("long: 18", "long: 450").replace("gauge: 8", "diameter: 4")
    design = read(metric, "inch")
    assert design.spec.lengths["long"] == pytest.approx(18 * 25.4)
    assert design.spec.fixings[0].gauge == 8  # type: ignore[union-attr]
    assert design.spec.lengths["stone"] == pytest.approx(1.25 * 25.4)


def test_in_its_own_units_it_is_as_written() -> None:
    design, (same, _) = read(BOX, "inch"), resolve(source_of(BOX))
    assert design == same and design.changes == ()


def test_re_made_again_in_the_same_units_nothing_changes() -> None:
    once, _ = remade(source_of(BOX), "mm")
    again, changes = remade(once, "mm")
    assert again.data == once.data and changes == ()


def test_sizes_and_values_made_to_measure_are_re_made_too() -> None:
    assert read(BOX, "mm", Choice("tall")).spec.lengths["long"] == 500
    assert read(BOX, "mm", Choice(values=(("long", "21"),))).spec.lengths["long"] == 530
    assert read(BOX, "mm", Choice(values=(("long", "533 mm"),))).spec.lengths["long"] == 533


def test_what_was_measured_on_the_piece_says_nothing_of_another() -> None:
    text = BOX + "measured:\n  - {size: side.width, is: 4 1/32}\n"
    assert len(read(text, "inch").spec.measured) == 1
    design = read(text, "mm")
    assert design.spec.measured == () and not [one for one in design.changes if one.path[0] == "measured"]


def test_a_divisor_is_still_read_in_one_way() -> None:
    text = BOX.replace("half: board / 2", "half: long * 6 mm / 12 mm").replace("units: inch", "units: mm")
    assert read(text, "inch").spec.lengths["half"] > 0


def test_what_is_wrong_is_told_at_its_place() -> None:
    design, problems = resolve(source_of(BOX.replace("half + 1/4", "hlaf + 1/4")), "mm")
    assert design is None
    (problem,) = problems
    assert (problem.code, problem.place.line) == ("unknown-name", 29) and "half" in problem.hint


def test_soft_unless_the_design_says_hard() -> None:
    assert read(BOX, "inch").spec.other_units == "soft"
    said = read(BOX.replace("units: inch", "units: inch\nother units: hard"), "inch")
    assert said.spec.other_units == "hard"
    _, (problem,) = resolve(source_of(BOX.replace("units: inch", "units: inch\nother units: firm")))
    assert problem.code == "unknown-word" and problem.place.line == 6


def change_of(changes: tuple[Change, ...], *path: str | int) -> Change:
    return next(change for change in changes if change.path == path)


def test_a_name_is_what_it_is_used_for() -> None:
    """`board` is a thickness, `play` a clearance; used for both, the first of the table counts."""
    changes = read(BOX, "mm").changes
    assert change_of(changes, "lengths", "board").rule == "stock"
    assert change_of(changes, "lengths", "play").rule == "clearance"
    assert change_of(changes, "parts", "knob", "width").rule == "stock"  # as its thickness is written
