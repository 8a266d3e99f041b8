"""Problems told to a person, or to a program."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text

from plans.problems import Problem, Severity
from publish.words.fit import grouped

if TYPE_CHECKING:
    from model.piece import Piece
    from plans.design import Design

COLOURS: dict[Severity, str] = {"error": "bold red", "warning": "bold yellow", "note": "bold cyan"}


def report_of(
    name: str, design: Design | None, pieces: Sequence[Piece], problems: Sequence[Problem]
) -> dict[str, object]:
    """What a program is told, as plain data: the design, the counts of its piece, and every problem.

    `pieces`: as written, then as it is re-made in the other units; none where nothing was built.
    """
    piece = pieces[0] if pieces else None
    return {
        "design": design.spec.plan if design else name,
        "revision": design.spec.revision if design else None,
        "parts": len(piece.parts) if piece else 0,
        "marks": len(piece.items) if piece else 0,
        "problems": [_entry(problem) for problem in problems],
    }


def _entry(problem: Problem) -> dict[str, object]:
    return {
        "code": problem.code,
        "severity": problem.severity,
        "message": problem.message,
        "hint": problem.hint,
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
        "parts": list(problem.parts),
        "found": problem.found,
        "wanted": problem.wanted,
    }


def tell(console: Console, problems: Sequence[Problem]) -> None:
    """Every problem by what to do about it, the worst first: where it is, the line, what to do."""
    for name, found in grouped(problems):
        console.print(Text(name, style="bold underline"), soft_wrap=True)
        for problem in found:
            _tell(console, problem)


def _tell(console: Console, problem: Problem) -> None:
    place = problem.place
    spot = place.file + (f":{place.line}:{place.column}" if place.line else "")
    console.print(
        Text.assemble(f"{spot}: ", (problem.severity, COLOURS[problem.severity]), f": {problem.message}"),
        soft_wrap=True,
    )
    if place.text:
        shown = place.text.replace("\t", " ")
        console.print(Text(f"    {shown}", style="dim"), soft_wrap=True)
        console.print(Text("    " + " " * (place.column - 1) + "^"), soft_wrap=True)
    if problem.found or problem.wanted:
        console.print(
            Text(f"    found {problem.found or 'nothing'}, wanted {problem.wanted or 'nothing'}"), soft_wrap=True
        )
    for formula in problem.formulas:
        console.print(Text(f"    from {formula}"), soft_wrap=True)
    if problem.hint:
        console.print(Text(f"    {problem.hint}"), soft_wrap=True)
