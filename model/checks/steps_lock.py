"""Pins of the maker that no order keeps: steps that are each to come before the other."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from model.steps import Step, is_meant, plan_of
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """One finding: the steps of the circle and their parts, at a pin that closes it."""
    locked = plan_of(piece).locked
    if not locked:
        return []
    number, key = _pin(piece, locked)
    names = dict.fromkeys(name for step in locked for name in _parts(step))
    circle = ", then ".join(_called(piece, step) for step in (*locked, locked[0]))
    return [
        finding(
            "steps-lock",
            "error",
            f"steps.{number + 1}: no order keeps this: {circle}",
            piece.design.place("steps", number, key),
            "take one of the pins out; the rest of the circle is needed by the joints or by the way parts go in",
            names,
            "steps that wait for each other",
            "an order in which each comes after what it needs",
        )
    ]


def _pin(piece: Piece, locked: tuple[Step, ...]) -> tuple[int, str]:
    """The first entry of the maker's, and its key, that pins one of the steps to another of them."""
    for step in locked:
        for own in step.own:
            for key, pins in (("before", own.before), ("after", own.after)):
                if any(is_meant(piece, other, pin) for pin in pins for other in locked):
                    return piece.design.spec.steps.index(own), key
    raise AssertionError("the rules themselves lock")


def _parts(step: Step) -> tuple[str, ...]:
    return step.added or tuple(item.shown for item in step.items)


def _called(piece: Piece, step: Step) -> str:
    if step.kind == "own":
        return f"'{step.own[0].new}'"
    if step.stage is None:
        return step.kind
    moved = [name for move in step.stage.moves for name in move.parts]
    return f"putting in {', '.join(dict.fromkeys(piece.parts[name].kind for name in moved))}"
