"""The order of the steps of every set, by an independent checker that holds the rules of the trade as data."""

from collections import Counter

import pytest

from model.checks import steps_lock
from model.cut_list import cut_list
from model.ordering import ordered
from model.piece import Piece
from model.steps import Step
from model.takeoff import hardware
from publish.edition import Edition
from publish.words.milestones import fixings_used, parts_used, wait
from publish.words.steps import step_words

# what comes before what on one part, in the words of the trade (common practice, from memory; not the model's table)
ON_A_PART = {
    "tenons": {"mill", "size", "ends"},
    "mortises": {"mill", "size", "ends"},
    "bridles": {"mill", "size", "ends"},
    "halvings": {"mill", "size"},
    "notches": {"mill", "size", "ends"},
    "grooves": {"mill", "size"},
    "rabbets": {"mill", "size"},
    "size": {"mill", "glue up"},
    "tapers": {"mortises", "tenons", "bridles", "notches", "grooves", "biscuit slots", "dovetails"},
    "curves": {"mortises", "tenons", "grooves", "tongues", "rabbets", "dovetails", "box joints", "notches"},
    "turning": {"mortises", "tenons", "grooves"},
    "easing": {"mortises", "tenons", "tapers", "curves", "bevels", "grooves", "notches", "mouldings", "holes"},
}
# a joint's inner half is cut first, the outer one fitted to it
FITTED = {"tenons": {"mortises", "end grooves"}, "tongues": {"grooves"}}
ON_THE_WHOLE = {
    "sand": {"easing", "tapers", "mortises", "tenons", "holes"},
    "dry fit": {"easing", "tapers", "mortises", "tenons", "holes"},
    "stage": {"dry fit", "sand"},
    "finish": {"stage", "level", "sand"},
    "fittings": {"finish", "stage"},
    "supplies": {"finish", "stage"},
}


def told(steps: tuple[Step, ...]) -> list[tuple[int, Step]]:
    return [(n, one) for n, step in enumerate(steps) for one in step.every]


def names(step: Step) -> set[str]:
    return {name for item in step.items for name in (*item.parts, *item.mirrored)}


def faults(piece: Piece, steps: tuple[Step, ...]) -> list[str]:
    """Every breach of the rules above: `tapers before mortises`."""
    found = []
    every = told(steps)
    for n, then in every:
        for m, first in every:
            if m <= n:
                continue
            same = names(first) & names(then)
            meet = any({j.a, j.b} & names(first) and {j.a, j.b} & names(then) for j in piece.joints)
            if (
                (first.kind in ON_A_PART.get(then.kind, ()) and same)
                or (first.kind in FITTED.get(then.kind, ()) and meet)
                or first.kind in ON_THE_WHOLE.get(then.kind, ())
            ):
                found.append(f"{then.kind} before {first.kind}")
    return found


def test_nothing_comes_before_what_it_needs(edition: Edition) -> None:
    assert not faults(edition.piece, edition.steps)


def test_the_checker_finds_a_wrong_order(bench_made) -> None:
    edition = bench_made[1]["inch"]
    steps = list(edition.steps)
    at = {step.kind: n for n, step in enumerate(steps)}
    steps[at["easing"]], steps[at["mortises"]] = steps[at["mortises"]], steps[at["easing"]]
    assert "easing before mortises" in faults(edition.piece, tuple(steps))


def test_every_assembly_step_goes_in_and_comes_out_again(edition: Edition, unit_system: str, replay) -> None:
    """In the order of the steps, on the solids: what comes out without a clash goes in backwards."""
    if unit_system == "mm":
        pytest.skip("the same piece")
    stages = tuple(step.stage for step in edition.steps if step.stage is not None)
    replay(edition.piece, stages)


def test_what_the_steps_use_is_what_the_lists_have(edition: Edition) -> None:
    used = Counter()
    for step in edition.steps:
        for mark, _, count in parts_used(edition, step):
            used[mark] += count
    assert used == {row.item.mark: row.item.quantity for row in cut_list(edition.piece)} | {
        item.mark: item.quantity for item in edition.piece.items
    }
    taken = sum(count for step in edition.steps for _, count in fixings_used(edition, step))
    assert taken == sum(row.count for row in hardware(edition.piece))


def test_glue_and_finish_are_waited_for(edition: Edition) -> None:
    for step in edition.steps:
        glued = any(joint.glued for joint in step.joints)
        if glued or step.kind in ("glue up", "mill", "finish"):
            assert wait(edition, step) and step_words(edition, step).wait


def test_bounds_of_one_step(edition: Edition) -> None:
    """At most five new kinds of part a step, and eight joints in one glue-up of single parts (our bars)."""
    for step in edition.steps:
        if step.stage is None or not step.stage.base:
            continue
        assert len({edition.piece.parts[name].kind for name in step.added}) <= 5
        if len(step.stage.turns) > 1:
            assert sum(joint.glued for joint in step.joints) / step.stage.times <= 8


def test_alike_parts_are_worked_in_one_step(edition: Edition) -> None:
    """No two steps of one kind, but those of assembly and those that the maker split."""
    kinds = Counter(step.kind for step in edition.steps if step.kind not in ("stage", "own") and not step.own)
    assert max(kinds.values()) == 1


def test_an_order_is_found_or_the_circle_told() -> None:
    assert ordered(["a", "b", "a", "b"], [(0, 1)]).order == (0, 2, 1, 3)  # two set-ups, one change
    assert ordered(["a"] * 4, [(0, 1), (1, 2), (2, 1), (0, 3)]).locked in ((1, 2), (2, 1))


def test_the_designs_lock_nothing(edition: Edition) -> None:
    assert not steps_lock.check(edition.piece)
