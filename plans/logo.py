"""A maker's logo: a PNG or JPEG picture beside the design, read as pixels on white."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from plans.house import LINE_CONTRAST, WHITE, beside, contrast
from plans.problems import Problem
from plans.source import Source

BYTES, PIXELS, LEAST = 4_000_000, 6_000_000, 16
FORMATS = ("PNG", "JPEG")
DARKEST = 0.02  # share of the pixels that has to stand out from the paper
HINT = "name a PNG or JPEG picture in the folder of the design"


@dataclass(frozen=True)
class Logo:
    """Rows of 8-bit RGB from the top, `columns` x `rows`, on white."""

    columns: int
    rows: int
    pixels: bytes

    @property
    def shape(self) -> float:
        """Width over height."""
        return self.columns / self.rows


def read_logo(source: Source, folder: Path, name: str | None) -> tuple[Logo | None, tuple[Problem, ...]]:
    """The logo that `source` names, a file inside `folder`; none where none is named, or with what is wrong with it."""
    if name is None:
        return None, ()
    path = beside(source, name, folder)
    read = path if isinstance(path, str) else _read(path)
    if isinstance(read, Logo):
        faint = _faintness(read)
        return read, (_problem(source, "faint-colour", faint, "take a darker picture"),) if faint else ()
    return None, (_problem(source, "house-file", read, HINT),)


def _problem(source: Source, code: str, message: str, hint: str) -> Problem:
    return Problem(code, "error", f"house.logo: {message}", source.place(("house", "logo")), hint)


def _read(path: Path) -> Logo | str:
    """The picture, or the sentence that says why not. Its size is looked at before its pixels are."""
    try:
        with path.open("rb") as stream:
            raw = stream.read(BYTES + 1)
        if len(raw) > BYTES:
            return f"the picture is larger than {BYTES // 1_000_000} MB"
        with Image.open(io.BytesIO(raw), formats=FORMATS) as picture:
            wide, high = picture.size
            if min(wide, high) < LEAST or wide * high > PIXELS:
                return f"the picture is {wide} x {high} pixels; from {LEAST} to some 2400 each way will do"
            whole = picture.convert("RGBA")
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return "this is not a PNG or JPEG picture that can be read"
    ground = Image.new("RGBA", whole.size, (255, 255, 255, 255))
    flat = Image.alpha_composite(ground, whole).convert("RGB")
    return Logo(*flat.size, flat.tobytes())


def _faintness(logo: Logo) -> str:
    """Why a logo would be lost on white paper in black and white; empty where it would not."""
    counts = Image.frombytes("RGB", (logo.columns, logo.rows), logo.pixels).convert("L").histogram()
    wanted, seen = max(1.0, DARKEST * logo.columns * logo.rows), 0
    for level, count in enumerate(counts):
        seen += count
        if seen >= wanted:
            found = contrast((level / 255,) * 3, WHITE)
            if found < LINE_CONTRAST:
                return f"this picture is lost in black and white: contrast {found:.1f}, {LINE_CONTRAST:g} needed"
            return ""
    return ""
