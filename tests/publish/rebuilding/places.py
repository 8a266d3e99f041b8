"""Where the lines of a part come out by its printed numbers, walked from line to line."""

from __future__ import annotations

import re
from collections import deque
from fractions import Fraction

from rebuilding.records import Dimension, SheetRecords

COUNT = re.compile(r"^(\d+)× ")
ACROSS = "Ø "


def number(text: str, unit: Fraction) -> Fraction:
    """A printed number in mm: `12.5`, `1 1⁄2`, `3⁄4`; ValueError for anything else."""
    found = re.fullmatch(r"(?:(\d+(?:\.\d+)?))?(?:(?:^| )(\d+)⁄(\d+))?", text.strip())
    if found is None or not text.strip():
        raise ValueError(f"{text!r} is no number")
    whole, above, below = found.groups()
    return (Fraction(whole or 0) + (Fraction(int(above), int(below)) if above else 0)) * unit


def size_of(dimension: Dimension, unit: Fraction) -> Fraction:
    """The size a dimension states, without its count."""
    return number(COUNT.sub("", dimension.text).removeprefix(ACROSS), unit)


def places(sheet: SheetRecords, unit: Fraction) -> tuple[list[dict[int, Fraction]], list[str]]:
    """The place of every line that can be walked to from the first of the overall size, and what does not agree."""
    found: list[dict[int, Fraction]] = []
    wrong: list[str] = []
    for axis in range(3):
        steps: dict[int, list[tuple[int, Fraction, str]]] = {}
        overall: list[int] = []
        for dimension in sheet.dimensions:
            if dimension.text.startswith(ACROSS) or COUNT.sub("", dimension.text).startswith(ACROSS):
                continue
            for span in (span for span in dimension.spans if span.axis == axis):
                low, high = sorted((span.start, span.end))
                if low == high:
                    continue
                size = size_of(dimension, unit)
                steps.setdefault(low, []).append((high, size, dimension.text))
                steps.setdefault(high, []).append((low, -size, dimension.text))
                if span.name.startswith("overall") or dimension.role == "overall":
                    overall += [low, high]
        at: dict[int, Fraction] = {}
        if overall:
            at[min(overall)] = Fraction(0)
            waiting = deque(at)
            while waiting:
                here = waiting.popleft()
                for there, size, text in steps.get(here, ()):
                    if there not in at:
                        at[there] = at[here] + size
                        waiting.append(there)
                    elif at[there] != at[here] + size:
                        wrong.append(
                            f"axis {axis}: {text} from line {here} to {there} closes to {float(at[there] - at[here])}"
                        )
        wrong += [f"axis {axis}: line {rank} is not reached" for rank in steps if rank not in at]
        found.append(at)
    return found, wrong
