"""What the checks have in common: how a length is said, and where in the file the cure is."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from model.opening import Opened
from model.piece import Feature, Part, Piece
from plans.problems import Place, Problem, Severity
from plans.units import System, UnitSystem, shown

RULES: dict[System, tuple[Fraction, Fraction]] = {
    "inch": (Fraction(1, 16), Fraction(1, 64)),
    "mm": (Fraction(1), Fraction(1, 10)),
}
COARSE = 6.0  # mm: rules of thumb above it are said to the coarser step


def said(piece: Piece, mm: float) -> str:
    """A length with its unit, as the design counts."""
    return shown(mm, piece.design.spec.units)


def at_least(piece: Piece, mm: float) -> str:
    """The least of a rule of thumb, rounded up as the trade says it: to 1/16 in or 1 mm, small sizes finer."""
    units = _trade(piece, mm)
    return f"{units.length(units.ceil(mm))} {units.suffix}"


def at_most(piece: Piece, mm: float) -> str:
    """The most of a rule of thumb, rounded down likewise."""
    units = _trade(piece, mm)
    return f"{units.length(units.floor(mm))} {units.suffix}"


def _trade(piece: Piece, mm: float) -> UnitSystem:
    system = piece.design.spec.units
    coarse, fine = RULES[system]
    return UnitSystem(system, coarse if mm > COARSE else fine)


def how_far(piece: Piece, state: Opened) -> str:
    """How far something is open: `swung 30 degrees`, `pulled out 8 in`."""
    opens = piece.design.spec.assemblies[state.assembly.kind].opens
    swings = opens is not None and opens.angle is not None
    return f"swung {state.by:.0f} degrees" if swings else f"pulled out {said(piece, state.by)}"


def finding(
    code: str,
    severity: Severity,
    message: str,
    place: Place,
    hint: str,
    parts: Iterable[str],
    found: str = "",
    wanted: str = "",
) -> Problem:
    """A problem, its parts each named once."""
    return Problem(code, severity, message, place, hint, tuple(dict.fromkeys(parts)), found, wanted)


def once_a_kind(piece: Piece, problems: list[Problem]) -> list[Problem]:
    """Of alike findings (same place, same kinds of part, same numbers), the first, which names the parts of all."""
    groups: dict[tuple[object, ...], list[Problem]] = {}
    for problem in problems:
        kinds = tuple(sorted({piece.parts[name].kind for name in problem.parts if name in piece.parts}))
        groups.setdefault((problem.code, problem.severity, problem.place, kinds), []).append(problem)
    return [_merged(alike) for alike in groups.values()]


def _merged(alike: list[Problem]) -> Problem:
    first = alike[0]
    if len(alike) == 1:
        return first
    names = [name for problem in alike for name in problem.parts]
    message = f"{first.message} (and {len(alike) - 1} more like it)"
    return finding(first.code, first.severity, message, first.place, first.hint, names, first.found, first.wanted)


def cut_place(piece: Piece, part: Part, feature: Feature) -> Place:
    """Where in the file a cut in a part comes from: the joint, or the shaping of the part."""
    for joint in piece.joints:
        if {joint.a, joint.b} == {part.name, feature.other}:
            return piece.design.joint_place(joint.number)
    return piece.design.place("parts", part.kind, "shaping")
