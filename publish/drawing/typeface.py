"""The four faces of the house and their measures.

Widths come from the font files, in em; a size is the em in mm. Only TrueType outlines can be embedded by the PDF
writer, so the .ttf files are the ones used.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from pathlib import Path
from typing import Literal

import font_source_sans_pro
from reportlab.pdfbase.ttfonts import TTFont

FaceStyle = Literal["regular", "semibold", "bold", "italic"]

FILES: dict[FaceStyle, str] = {
    "regular": "SourceSansPro-Regular.ttf",
    "semibold": "SourceSansPro-Semibold.ttf",
    "bold": "SourceSansPro-Bold.ttf",
    "italic": "SourceSansPro-It.ttf",
}
CAP_HEIGHT = 0.66
"""Height of capitals and figures, em (OS/2 table of the face)."""

_DEEP = set("gjpqyQJ¡¦¿þŋ,;()[]{}|/\\@_$§¶ƒ⁄″′")
_TALL = set("bdfhkltij()[]{}|/\\@$§¶'\"″′”’“‘`^~*ß")
_DEPTH = {False: -0.042, True: -0.30}
_PLAIN_TOP, _TALL_TOP, _ACCENT_TOP = 0.69, 0.83, 0.98

# Characters the face lacks (or that must not reach a page) and what stands in for them.
_STAND_INS = {
    "\t": " ",
    "\n": " ",
    "\r": " ",
    "\u00a0": " ",
    "\u2009": " ",
    "\u200a": " ",
    "\u202f": " ",
    "\u2011": "-",
    "\u2300": "\u00d8",
    "\u2714": "\u2713",
}
REPLACEMENT = "?"


def font_name(style: FaceStyle) -> str:
    """The name under which the PDF writer knows the face."""
    return f"House-{style}"


@lru_cache(maxsize=8)
def face(style: FaceStyle) -> TTFont:
    """The face with its measures, read once a run."""
    folder = Path(font_source_sans_pro.font_directory)
    return TTFont(font_name(style), str(folder / FILES[style]))


@lru_cache(maxsize=8)
def _widths(style: FaceStyle) -> dict[int, float]:
    return {code: width / 1000 for code, width in face(style).face.charWidths.items()}


def _stand_in(char: str, known: dict[int, float]) -> str:
    char = _STAND_INS.get(char, char)
    if unicodedata.category(char)[0] == "C":
        return ""
    return char if ord(char) in known else REPLACEMENT


@lru_cache(maxsize=8192)
def clean(string: str, style: FaceStyle = "regular") -> str:
    """`string` as the face can set it: composed, control and formatting characters gone, unknown ones replaced."""
    if string.isascii() and string.isprintable():  # the face has all of these, and nearly every string is of them
        return string
    known = _widths(style)
    return "".join(_stand_in(c, known) for c in unicodedata.normalize("NFC", string))


def unprintable(string: str, style: FaceStyle = "regular") -> str:
    """The characters of `string` that would be printed as a question mark, each once, in order; for a warning."""
    known = _widths(style)
    composed = unicodedata.normalize("NFC", string)
    return "".join(dict.fromkeys(c for c in composed if c != REPLACEMENT and _stand_in(c, known) == REPLACEMENT))


@lru_cache(maxsize=16384)
def plain_width(string: str, size: float, style: FaceStyle) -> float:
    """Advance width in mm of cleaned `string`, without fractions being built."""
    widths = _widths(style)
    return size * sum(map(widths.__getitem__, map(ord, string)))


@lru_cache(maxsize=8192)
def reach(string: str) -> tuple[float, float]:
    """(lowest, highest) ink of `string` from the baseline, em; generous by a few hundredths."""
    accented = any(ord(c) > 127 and unicodedata.decomposition(c) for c in string)
    tall = any(c in _TALL or ord(c) > 127 for c in string)
    deep = accented or any(c in _DEEP for c in string)
    return _DEPTH[deep], _ACCENT_TOP if accented else _TALL_TOP if tall else _PLAIN_TOP
