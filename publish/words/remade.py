"""What is said of a design that is re-made in sizes natural to the other units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from plans.hard import Change
from plans.natural import LONGER, STEPS, TOLERANCE, RuleName, spelled
from plans.problems import Problem
from plans.source import KeyPath
from plans.units import UNIT_MM, System, millimetres
from publish.words.names import capital, counted, listed

IN_WORDS: dict[System, str] = {"inch": "inches", "mm": "millimetres"}
RULES: dict[RuleName, str] = {
    "pair": "the design's own pair",
    "bought": "what is sold there",
    "stock": "planed thickness",
    "tool": "chisel or cutter",
    "drill": "drill or bit",
    "dowel": "dowel rod",
    "radius": "profile cutter",
    "screw": "screw length",
    "nail": "nail length",
    "bolt": "bolt length",
    "clearance": "clearance, rounded up",
    "free": "tidy step",
    "exact": "as it is",
}
OF_KINDS = ("shaping", "joints", "fixings")  # lists whose entries are told by their kind, and by their line


def told_once(found: Sequence[tuple[System | None, Sequence[Problem]]]) -> tuple[Problem, ...]:
    """The problems of a design, and of what it is re-made as in a system, which say so; each is told once."""
    told: list[Problem] = []
    for system, problems in found:
        known = {(one.code, one.place, one.severity) for one in told}
        for problem in problems:
            if system is None or (problem.code, problem.place, problem.severity) not in known:
                message = f"re-made in {IN_WORDS[system]}: {problem.message}" if system else problem.message
                told.append(replace(problem, message=message))
    return tuple(told)


def title() -> str:
    """The head of the page."""
    return "Numbers that changed"


def about(changes: Sequence[Change], own: System, other: System) -> str:
    """What the page is for."""
    return (
        f"For the maker's own file, not for the buyer. The design is in {IN_WORDS[own]}; its edition in "
        f"{IN_WORDS[other]} is of a piece re-made in sizes natural there, built and checked by itself. "
        f"{capital(counted(len(changes), 'number'))} of the design file changed for it. Everything else stands as "
        "written, or follows by formula."
    )


def how(system: System) -> tuple[str, ...]:
    """The rules, and what to do where one gives a number the maker would not choose."""
    steps = STEPS[system]
    coarse = listed([spelled(step * UNIT_MM[system], system) for step in steps.coarse])
    finest, small = (spelled(size * UNIT_MM[system], system) for size in (steps.finest, steps.small))
    percent = millimetres(TOLERANCE * 100, TOLERANCE)
    return (
        f"A free length goes to the coarsest step of {coarse} that changes it by no more than {percent} %, "
        f"below {small} to {finest}; nothing goes to nothing. A clearance is rounded up to {finest}.",
        "Planed thicknesses, joints, holes and profiles go to the nearest size of boards, chisels, cutters and drills "
        "as sold, a thickness to no more than its rough stock yields; screws, nails and bolts to the longest sold that "
        f"is at most {spelled(LONGER, 'mm')} longer.",
        "For another number than the rule's, write a pair in the design, as in "
        "{inch: 3/4, mm: 20}: pairs are taken as they are.",
    )


def group(path: KeyPath) -> str:
    """The part of the file that a number stands in."""
    return capital(str(path[0]))


def where(path: KeyPath) -> str:
    """Where it stands in its group: `leg: round over, radius`, `seat: curve, through 2, in`, `wood screw: long`."""
    words: list[str] = []
    for before, item in pairwise(path):
        if isinstance(item, str) and item != "shaping":
            words.append(item)
        elif isinstance(item, int) and before not in OF_KINDS:
            words[-1:] = [f"{words[-1]} {item + 1}"] if words else [str(item + 1)]
    return ": ".join((words[0], ", ".join(words[1:]))) if len(words) > 1 else words[0]


def change_words(change: Change) -> tuple[str, str]:
    """By how much, in mm and in per cent; nothing for what is asked for by a name."""
    if change.before is None or change.after is None:
        return "", ""
    by = change.after - change.before
    return _signed(by, 2), _signed(by / change.before * 100, 1)


def _signed(value: Fraction, digits: int) -> str:
    return f"{float(value):+.{digits}f}".replace("-", "−")


def rule_words(change: Change) -> str:
    """The rule it came by."""
    return RULES[change.rule]
