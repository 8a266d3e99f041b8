"""The piece made from the numbers as printed must fit as well as the one they were rounded from."""

from __future__ import annotations

from collections.abc import Callable

from model.bare import sharp
from model.build import build
from model.checks.finding import finding
from model.piece import Piece
from plans.printed import printed_design
from plans.problems import Problem
from plans.units import System

Check = Callable[[Piece], list[Problem]]
MOVED = 1e-6  # mm past half a step


def check_with(piece: Piece, checks: dict[str, Check], known: set[str]) -> list[Problem]:
    """What the `checks` find in the piece rebuilt from its printed numbers, in each unit system.

    `known` holds what they find in the piece as designed, as code and parts: that is told already.
    """
    found = []
    for system in piece.design.printed_in:
        rounded = printed_design(piece.design, system)
        if rounded.spec == piece.design.spec:
            continue  # every number is printed as it is
        rebuilt, problems = build(sharp(rounded), store=piece.store)
        if rebuilt is not None:
            problems = tuple(problem for check in checks.values() for problem in check(rebuilt))
        found += [_told(problem, system) for problem in problems if _key(problem) not in known]
    return found + _moved(piece)


def _key(problem: Problem) -> str:
    return f"{problem.code}: {', '.join(sorted(problem.parts))}"


def keys(problems: list[Problem]) -> set[str]:
    """What `check_with` takes for known."""
    return {_key(problem) for problem in problems}


def _told(problem: Problem, system: System) -> Problem:
    unit = {"inch": "inches", "mm": "millimetres"}[system]
    return finding(
        "printed-numbers",
        problem.severity,
        f"made from the numbers as printed in {unit}: {problem.message}",
        problem.place,
        f"choose numbers that print exactly, or a finer step for {unit}; {problem.hint}",
        problem.parts,
        problem.found,
        problem.wanted,
    )


def _moved(piece: Piece) -> list[Problem]:
    """Sizes that are printed further from the truth than half a step."""
    found = []
    for item in piece.items:
        part = piece.parts[item.shown]
        for size in (size for feature in part.features for size in feature.sizes):
            for system in piece.design.printed_in:
                units = piece.design.units(system)
                off = abs(units.round(size.value) - size.value)
                if off > float(units.step_mm) / 2 + MOVED:
                    message = f"the {size.name} of {part.name} is printed {off:.3f} mm away from what it is"
                    place = piece.design.place("parts", part.kind)
                    hint = "use a finer step"
                    found.append(finding("printed-numbers", "error", message, place, hint, (part.name,)))
    return found
