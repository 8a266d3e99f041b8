"""Sizes that the maker wrote into the words of a step, against those of the piece as it is now."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from model.checks.finding import finding
from model.piece import Piece
from plans.own_steps import NAMED
from plans.problems import Problem
from plans.source import KeyPath

SIZE = re.compile(r"(?<![\w./])((?:\d+ )?\d+/[1-9]\d*|\d+(?:\.\d+)?) ?(in\b|mm\b|\")")
MM = {"in": 25.4, '"': 25.4, "mm": 1.0}
SLACK = {"in": 0.4, '"': 0.4, "mm": 0.5}  # mm: half a step of what is commonly written


def check(piece: Piece) -> list[Problem]:
    """A warning for each size in own words that no part, cut or fixing has."""
    known = sorted(_sizes(piece))
    found = []
    for path, text in _texts(piece):
        for number, unit in SIZE.findall(NAMED.sub("", text)):
            mm = float(sum(Fraction(part) for part in number.split())) * MM[unit]
            if all(abs(mm - size) > SLACK[unit] for size in known):
                found.append(_problem(piece, path, f"{number} {unit}"))
    return found


def _problem(piece: Piece, path: KeyPath, written: str) -> Problem:
    return finding(
        "step-disagrees",
        "warning",
        f"steps.{int(path[1]) + 1}: your words say {written}, and nothing in the piece measures that",
        piece.design.place(*path),
        "write the size by its name, as `{leg.width}` or `{shelf_height}`: it then follows the model, in both units",
        (),
        written,
        "a size of the model",
    )


def _texts(piece: Piece) -> Iterator[tuple[KeyPath, str]]:
    for number, own in enumerate(piece.design.spec.steps):
        for key, words in (("say", own.say), ("instead", own.instead), ("also", own.also)):
            for n, text in enumerate(words):
                yield ("steps", number, key, n), text
        for key, line in (("caution", own.caution), ("wait", own.wait), ("title", own.title)):
            if line:
                yield ("steps", number, key), line


def _sizes(piece: Piece) -> Iterator[float]:
    """Everything that is measured: parts, what is cut in them, named lengths, fixings."""
    yield from (float(mm) for mm in piece.design.spec.lengths.values())
    yield from piece.size
    for part in piece.parts.values():
        yield from part.over_all
        for feature in part.features:
            yield from (size.value for size in feature.sizes)
            settings = feature.operation.settings if feature.operation is not None else {}
            yield from (value for value in settings.values() if isinstance(value, float))
    for fixing in piece.fixings:
        yield from (value for value in fixing.values.values() if isinstance(value, float))
