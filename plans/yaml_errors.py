"""What goes wrong in YAML, told to a maker."""

from dataclasses import dataclass
from typing import Protocol

import yaml


class Mark(Protocol):
    """Where the YAML reader is, counted from 0."""

    line: int
    column: int


@dataclass(frozen=True)
class Spot:
    """Line and column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True)
class Finding:
    """Something wrong at a spot: the code, the sentence and what to do."""

    code: str
    spot: Spot
    message: str
    hint: str = ""


def spot_of(mark: Mark | None) -> Spot:
    """The spot of a YAML mark (which counts from 0)."""
    return Spot(mark.line + 1, mark.column + 1) if mark is not None else Spot(0, 0)


def odd_character(text: str, error: yaml.reader.ReaderError) -> Finding:
    """The finding of a control character in `text`."""
    before = text[: error.position]
    spot = Spot(before.count("\n") + 1, error.position - (before.rfind("\n") + 1) + 1)
    number = f"U+{ord(text[error.position]):04X}"
    return Finding(
        "odd-character", spot, f"the control character {number} stands here", "delete it and type the text again"
    )


# what the parser complains of -> what to tell the maker, and what to do
_COMPLAINTS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a `: ` stands where no value can begin",
        "put text that holds `: ` in quotes, and check the indentation",
    ),
    ("could not find expected ':'", "a key without its `:`", "write `key: value`"),
    (
        "expected ',' or '}'",
        "a mapping `{...}` is not closed, or a comma is missing",
        "close the bracket, or put text in quotes",
    ),
    (
        "expected ',' or ']'",
        "a list `[...]` is not closed, or a comma is missing",
        "close the bracket, or put text in quotes",
    ),
    ("unexpected end of stream", "a quote is opened and never closed", "close it"),
    (
        "expected <block end>",
        "this line does not line up with those above it",
        "indent it like its neighbours, with spaces",
    ),
    ("expected the node content", "a value is missing here", "write the value, or close the bracket"),
    ("cannot start any token", "no value can begin with this character", "put the text in quotes"),
)


# complaints that are best shown where the bracket or the quote was opened
_NOT_CLOSED = ("expected ',' or '}'", "expected ',' or ']'", "unexpected end of stream")


def syntax_finding(text: str, error: yaml.MarkedYAMLError) -> Finding:
    """The finding of YAML that cannot be read; a tab before the place is taken for the cause."""
    spot = spot_of(error.problem_mark or error.context_mark)
    began = spot_of(error.context_mark)
    tab = _tab_before(text, spot.line)
    if tab is not None:
        return Finding(
            "tab-indent", tab, "this line is indented with a tab", "YAML wants spaces: use two for each step"
        )
    problem = error.problem or "it breaks off"
    for fragment, message, hint in _COMPLAINTS:
        if fragment in problem:
            opened_above = fragment in _NOT_CLOSED and began.line and began.line != spot.line
            return Finding("yaml-syntax", began if opened_above else spot, message, hint)
    return Finding(
        "yaml-syntax", spot, f"this cannot be read as YAML: {problem}", "compare it with a line that reads well"
    )


def _tab_before(text: str, line: int) -> Spot | None:
    """The last tab among the indentation of the lines up to `line`."""
    lines = text.split("\n")[:line]
    for number in range(len(lines), 0, -1):
        indent = lines[number - 1][: len(lines[number - 1]) - len(lines[number - 1].lstrip(" \t"))]
        if "\t" in indent:
            return Spot(number, indent.index("\t") + 1)
    return None
