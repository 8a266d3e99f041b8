"""Steps follow the design by themselves: a part more, a joint moved, a pin of the maker; what has no order is told."""

import pytest

from model import sequence
from model.checks import order_as_written, step_disagrees, steps_lock
from model.steps import Step, plan_of

POST = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 300, width: 60, thickness: 60,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right, shaping: [SHAPING]}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 70, thickness: 24,
     where: {top: 240, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
MORE
joints:
  - JOINT
glue: wood glue
finish: {name: oil, coats: 2}
stands: on the wall
steps: [STEPS]
"""
TENON = "mortise and tenon: {of: rail, into: post, thick: 8, long: 30, count: 2}"
TAPER = "taper: {sides: [left], from: top, after: 100, to: 40}"
CAP = """  cap:
    {wood: white oak, runs: left-right, thick: up-down, length: 700, width: 80, thickness: 20,
     where: {bottom: post.top, centred: [left-right, front-back]}}
"""
CAPPED = f"{TENON}\n  - glued face: {{of: cap, to: post, count: 2}}"


@pytest.fixture
def planned(built):
    def plan(shaping="", joint=TENON, more="", steps=""):
        text = POST.replace("SHAPING", shaping).replace("JOINT", joint).replace("MORE\n", more).replace("STEPS", steps)
        return built(text)

    return plan


def kinds(piece) -> list[str]:
    return [step.kind for step in plan_of(piece).steps]


def test_a_taper_put_in_comes_after_the_mortises_and_before_the_dry_fit(planned) -> None:
    order = kinds(planned(TAPER))
    assert order.index("mortises") < order.index("tenons") < order.index("dry fit")
    assert order.index("mortises") < order.index("tapers") < order.index("dry fit")
    assert "tapers" not in kinds(planned())


def test_a_part_more_goes_in_where_it_can_and_a_moved_joint_changes_the_work(planned) -> None:
    more = plan_of(planned(joint=CAPPED, more=CAP)).steps
    added = [name for step in more for name in step.added]
    assert sorted(added) == ["cap", "post left", "post right", "rail"]
    last = [step for step in more if step.stage is not None][-1]
    assert last.stage.moves[-1].parts == ("cap",), "it lies over both posts: it can only go on last"
    dowelled = kinds(planned(joint="dowel: {of: rail, into: post, diameter: 10, long: 40, per place: 2}"))
    assert "mortises" not in dowelled and "holes" in dowelled


def test_pins_are_kept(planned) -> None:
    piece = planned(TAPER, steps="{work: tenons, after: tapers}, {new: Make a rod, say: Mark it., before: size}")
    order = kinds(piece)
    assert order.index("tapers") < order.index("tenons") and order.index("own") < order.index("size")
    assert not steps_lock.check(piece)


def test_what_is_pinned_against_the_rules_locks_and_names_the_parts(planned) -> None:
    piece = planned(TAPER, steps="{work: tapers, before: mortises}")
    (problem,) = steps_lock.check(piece)
    assert "post left" in problem.parts and "tapers" in problem.message and "mortises" in problem.message
    assert kinds(piece) == kinds(planned(TAPER)), "the pin is left out, the rules are not"


def test_work_is_split_and_joined(planned) -> None:
    split = [step for step in plan_of(planned(steps="{work: size, apart: rail}")).steps if step.kind == "size"]
    assert [[item.name for item in step.items] for step in split] in ([["rail"], ["post"]], [["post"], ["rail"]])
    joined = plan_of(planned(TAPER, steps="{work: tenons, with: tapers}")).steps
    (both,) = [step for step in joined if step.joined]
    assert {one.kind for one in both.every} == {"tenons", "tapers"}
    every = [one.kind for step in joined for one in step.every]
    assert sorted(every) == sorted(kinds(planned(TAPER))), "nothing is lost, nothing told twice"


def test_a_step_of_the_maker_survives_a_change_and_is_flagged_when_its_size_does_not(planned) -> None:
    own = '{work: tenons, also: "The tenon is 8 mm thick."}'
    assert not step_disagrees.check(planned(steps=own))
    moved = planned(steps=own, joint=TENON.replace("thick: 8", "thick: 10"))
    (problem,) = step_disagrees.check(moved)
    assert problem.found == "8 mm" and problem.place.line > 1 and "{leg.width}" in problem.hint
    (step,) = [step for step in plan_of(moved).steps if step.own]
    assert step.own[0].also == ("The tenon is 8 mm thick.",)


def test_a_piece_too_large_follows_the_file_and_says_so(planned, monkeypatch) -> None:
    monkeypatch.setattr(sequence, "EFFORT", 0)
    piece = planned(joint=CAPPED, more=CAP)
    assert [stage.parts[-1] for stage in piece.stages] == ["rail", "cap"]
    (note,) = order_as_written.check(piece)
    assert note.severity == "note"
    added = [name for step in plan_of(piece).steps for name in step.added]
    assert sorted(added) == sorted(piece.parts)


def test_a_piece_that_was_worked_out_is_not_called_so(planned) -> None:
    assert not order_as_written.check(planned(joint=CAPPED, more=CAP))


def test_a_step_holds_what_is_told_with_it() -> None:
    inner = Step("bevels", ())
    assert [one.kind for one in Step("tapers", (), joined=(inner,)).every] == ["tapers", "bevels"]
