"""Setting text: widths, wrapping, and fractions built as numerator, bar and denominator.

A fraction is written with U+2044 between its figures, a whole number and a space before it: `1 3⁄4`. Ready-made
characters such as `¾` are taken for the same thing. A built fraction reads as `3/4` to a search.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from publish.drawing.box import Point
from publish.drawing.records import Anchor, Label, Line, Record
from publish.drawing.style import BLACK, NARROW, Colour, Pen
from publish.drawing.typeface import CAP_HEIGHT, FaceStyle, clean, plain_width


@dataclass(frozen=True)
class FractionStyle:
    """How a fraction is built: figures at `scale` of the text, `gap` em from the bar to the figures, bar width mm."""

    scale: float
    gap: float
    bar: float


STACKED = FractionStyle(scale=0.68, gap=0.145, bar=NARROW)
"""Dimensions, tables, headings."""

INLINE = FractionStyle(scale=0.58, gap=0.085, bar=NARROW)
"""Running paragraphs: low enough for the leading of body text."""


@dataclass(frozen=True)
class Run:
    """A stretch of text in one face, size (mm) and colour."""

    string: str
    size: float
    style: FaceStyle = "regular"
    colour: Colour = BLACK


_FRACTION = re.compile(
    r"(?P<whole>\d+[ \u00a0\u2009\u200a\u202f])?(?<!\d)(?P<over>\d{1,4})\u2044(?P<under>\d{1,4})(?!\d)"
)
_READY_MADE = re.compile(r"(\d?)([¼½¾⅐-⅞])")
_SIDE_SPACE = 0.06
_WHOLE_SPACE = 0.12


@dataclass(frozen=True)
class _Piece:
    """Plain text (`under` empty), or a fraction `text` over `under`; `space` em before it."""

    text: str
    under: str = ""
    space: float = 0.0


def _spell_out(match: re.Match[str]) -> str:
    before = f"{match[1]} " if match[1] else ""
    return before + unicodedata.normalize("NFKC", match[2])


@lru_cache(maxsize=8192)
def _pieces(string: str, style: FaceStyle) -> tuple[_Piece, ...]:
    string = _READY_MADE.sub(_spell_out, string)
    found: list[_Piece] = []
    done = 0
    for match in _FRACTION.finditer(string):
        before = string[done : match.start()] + (match["whole"] or "").rstrip()
        if before:
            found.append(_Piece(clean(before, style)))
        space = _WHOLE_SPACE if match["whole"] else _SIDE_SPACE if before else 0.0
        found.append(_Piece(match["over"], match["under"], space))
        done = match.end()
    rest = clean(string[done:], style)
    if rest:
        found.append(_Piece(rest, space=_SIDE_SPACE if found else 0.0))
    return tuple(found)


def _piece_width(piece: _Piece, size: float, style: FaceStyle, fraction: FractionStyle) -> float:
    if not piece.under:
        return piece.space * size + plain_width(piece.text, size, style)
    small = size * fraction.scale
    figures = max(plain_width(piece.text, small, style), plain_width(piece.under, small, style))
    return piece.space * size + figures


def text_width(string: str, size: float, style: FaceStyle = "regular", fraction: FractionStyle = STACKED) -> float:
    """Width in mm of `string` as it will be set, fractions built."""
    return sum(_piece_width(p, size, style, fraction) for p in _pieces(string, style))


def runs_width(runs: Iterable[Run], fraction: FractionStyle = STACKED) -> float:
    """Width in mm of `runs` set one after the other."""
    return sum(text_width(r.string, r.size, r.style, fraction) for r in runs)


def text_height(string: str, size: float, fraction: FractionStyle = STACKED) -> float:
    """Height in mm that `string` takes about its mid line: the stack where it has a fraction, else its capitals."""
    if not has_fraction(string):
        return CAP_HEIGHT * size
    return 2 * size * (fraction.scale * CAP_HEIGHT + fraction.gap)


def has_fraction(string: str) -> bool:
    """True when a fraction would be built."""
    return bool(_FRACTION.search(string) or _READY_MADE.search(string))


def _place(at: Point, along: float, up: float, rotation: int) -> Point:
    return (at[0] + along, at[1] + up) if rotation == 0 else (at[0] - up, at[1] + along)


def _fraction_records(
    piece: _Piece, at: Point, along: float, run: Run, fraction: FractionStyle, rotation: Literal[0, 90]
) -> Iterator[Record]:
    small = run.size * fraction.scale
    width = max(plain_width(piece.text, small, run.style), plain_width(piece.under, small, run.style))
    middle = CAP_HEIGHT * run.size / 2
    gap = fraction.gap * run.size
    over = _place(at, along + width / 2, middle + gap, rotation)
    under = _place(at, along + width / 2, middle - gap - CAP_HEIGHT * small, rotation)
    start, end = _place(at, along, middle, rotation), _place(at, along + width, middle, rotation)
    reads = f"{piece.text}/{piece.under}"
    yield Label(*over, piece.text, small, run.style, "centre", run.colour, rotation, reads)
    yield Line(*start, *end, Pen(fraction.bar, run.colour))
    yield Label(*under, piece.under, small, run.style, "centre", run.colour, rotation, "")


def set_runs(
    runs: Iterable[Run],
    x: float,
    y: float,
    anchor: Anchor = "left",
    rotation: Literal[0, 90] = 0,
    fraction: FractionStyle = STACKED,
) -> list[Record]:
    """Records of `runs` on one baseline from (`x`, `y`), the anchor's place in the whole width."""
    runs = tuple(runs)
    along = -{"left": 0.0, "centre": 0.5, "right": 1.0}[anchor] * runs_width(runs, fraction)
    records: list[Record] = []
    for run in runs:
        for piece in _pieces(run.string, run.style):
            along += piece.space * run.size
            if piece.under:
                records.extend(_fraction_records(piece, (x, y), along, run, fraction, rotation))
            else:
                start = _place((x, y), along, 0.0, rotation)
                records.append(Label(*start, piece.text, run.size, run.style, "left", run.colour, rotation))
            along += _piece_width(piece, run.size, run.style, fraction) - piece.space * run.size
    return records


def set_text(
    string: str,
    x: float,
    y: float,
    size: float,
    style: FaceStyle = "regular",
    anchor: Anchor = "left",
    colour: Colour = BLACK,
    rotation: Literal[0, 90] = 0,
    fraction: FractionStyle = STACKED,
) -> list[Record]:
    """Records of `string` on the baseline (`x`, `y`), mm, fractions built; empty for an empty string."""
    return set_runs((Run(string, size, style, colour),), x, y, anchor, rotation, fraction)


def _words(string: str) -> list[str]:
    """The unbreakable pieces of `string`: a mixed number keeps together."""
    held = _FRACTION.sub(lambda m: m[0].replace(" ", "\u00a0"), _READY_MADE.sub(_spell_out, string))
    return [w for w in re.split(r"[ \t\r\n]+", held) if w]


def _broken(word: str, width: float, size: float, style: FaceStyle, fraction: FractionStyle) -> Iterator[str]:
    """`word` in pieces no wider than `width`; one character at least."""
    piece = ""
    for char in word:
        if piece and text_width(piece + char, size, style, fraction) > width:
            yield piece
            piece = ""
        piece += char
    yield piece


def wrap(
    string: str, width: float, size: float, style: FaceStyle = "regular", fraction: FractionStyle = STACKED
) -> list[str]:
    """`string` in lines no wider than `width` mm, broken at spaces; a longer word is cut. [""] for no text."""
    lines: list[str] = []
    line = ""
    for word in _words(string):
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, style, fraction) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        *full, line = _broken(word, width, size, style, fraction)
        lines.extend(full)
    return [*lines, line] if line or not lines else lines


def fit(string: str, width: float, size: float, least: float, style: FaceStyle = "regular") -> tuple[str, float]:
    """(`string`, font size), at most `width` mm wide: smaller down to `least`, then cut with an ellipsis."""
    full = text_width(string, size, style)
    if full <= width:
        return string, size
    smaller = max(least, size * width / full * 0.999)
    if text_width(string, smaller, style) <= width:
        return string, smaller
    kept = string
    while kept and text_width(kept + "…", smaller, style) > width:
        kept = kept[:-1].rstrip()
    return kept + "…", smaller
