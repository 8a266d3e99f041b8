"""The one way a thing that is wrong is told: where, what, and what to do."""

from dataclasses import dataclass, field
from typing import Literal

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True)
class Place:
    """A spot in a design file; line and column count from 1 (0: the file as a whole)."""

    file: str
    line: int = 0
    column: int = 0
    text: str = ""


@dataclass(frozen=True)
class Problem:
    """One finding. `code` is stable; `message` and `hint` are for people."""

    code: str
    severity: Severity
    message: str
    place: Place
    hint: str = ""
    parts: tuple[str, ...] = ()
    found: str = ""
    wanted: str = ""
    formulas: tuple[str, ...] = field(default=())


def has_errors(problems: tuple[Problem, ...] | list[Problem]) -> bool:
    """True when at least one of `problems` stops a plan set from being published."""
    return any(p.severity == "error" for p in problems)
