"""A maker's own name, logo, colours, licence line and prices: in the design, or in a file that all designs share."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler, StringConstraints, WithJsonSchema
from pydantic_core import CoreSchema

from plans.fields import Entry, Line
from plans.kinds import refused
from plans.prices import Prices
from plans.problems import Problem
from plans.source import Source, read_source
from plans.tree import Mapping
from plans.yaml_errors import Spot

Colour = tuple[float, float, float]  # red, green, blue, each 0 to 1 (sRGB)
WHITE: Colour = (1.0, 1.0, 1.0)
BLACK: Colour = (0.0, 0.0, 0.0)
# WCAG 2.1, 1.4.3 and 1.4.11: text 4.5 to 1, lines and other things that must be seen 3 to 1 (from memory)
TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0
BAND_CONTRAST = 12.0  # of black text on a tinted band: a grey printer breaks a darker tint into dots round the letters
_HEX = re.compile(r"#?([0-9A-Fa-f]{6})")
_LINE_LONG = 150


def luminance(colour: Colour) -> float:
    """How light a colour is, 0 to 1, which is what is left of it in black and white (WCAG 2.1, relative luminance)."""
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: Colour, b: Colour) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.1)."""
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def _colour(raw: Any) -> Any:
    if isinstance(raw, tuple):
        return raw
    found = _HEX.fullmatch(raw) if isinstance(raw, str) else None
    if found is None:
        message = "a colour is six hexadecimal digits" + ("" if raw else "; after a bare # nothing is read")
        raise refused("wrong-value", message, 'write it as in `1F3A4D`, or in quotes, as in `"#1F3A4D"`')
    return tuple(int(found[1][n : n + 2], 16) / 255 for n in (0, 2, 4))


def _against(ground: Colour, least: float, what: str, way: str) -> BeforeValidator:
    """Reads a colour, and refuses one that does not stand out from its ground in black and white."""

    def read(raw: Any) -> Any:
        colour = _colour(raw)
        found = contrast(colour, ground)
        if found < least:
            message = f"{what} this colour cannot be read in black and white: contrast {found:.1f}, {least:g} needed"
            raise refused("faint-colour", message, f"take a {way} one")
        return colour

    return BeforeValidator(read)


def _hexadecimal(what: str) -> WithJsonSchema:
    return WithJsonSchema({"type": ["string", "number"], "title": what, "description": "six hexadecimal digits"})


TextColour = Annotated[Colour, _against(WHITE, TEXT_CONTRAST, "text in", "darker"), _hexadecimal("a dark colour")]
LineColour = Annotated[Colour, _against(WHITE, LINE_CONTRAST, "a line in", "darker"), _hexadecimal("a dark colour")]
BandColour = Annotated[
    Colour, _against(BLACK, BAND_CONTRAST, "black text on", "lighter"), _hexadecimal("a light colour")
]
LicenceLine = Annotated[str, StringConstraints(min_length=1, max_length=_LINE_LONG)]


class HouseColours(Entry):
    """Colours of the sheets; each has to be legible when it is printed in black and white."""

    headings: TextColour | None = None
    rules: LineColour | None = None
    bands: BandColour | None = None


class HouseSpec(Entry):
    """What a maker puts on every sheet, and the prices that hold for all designs."""

    name: Line | None = None
    logo: Line | None = None
    licence: LicenceLine | None = None
    colours: HouseColours = HouseColours()
    prices: Prices | None = Field(default=None, description="those of a design go before them")


class InAFile:
    """Annotation: what stands here may stand in a file of its own, which is then named instead."""

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """The entry, or the name of a file."""
        return {"anyOf": [{"type": "string", "title": "the name of a house file"}, handler(schema)]}


def beside(source: Source, name: str, folder: Path) -> Path | str:
    """The file called `name` from where `source` lies, which has to be inside `folder`; or why it cannot be used."""
    if "\0" in name or "\\" in name or Path(name).is_absolute():
        return "a file is named from the folder of the design, with / between folders"
    try:
        path = (Path(source.file).parent / name).resolve()
        if not path.is_relative_to(folder.resolve()):
            return "this file lies outside the folder of the design"
        return path if path.is_file() else "there is no such file"
    except (OSError, ValueError, RuntimeError):
        return "this file cannot be read"


def with_house_file(source: Source, data: dict[str, Any]) -> tuple[dict[str, Any], Source, tuple[Problem, ...]]:
    """The data with the house file it names read in, the source that file is, and what is wrong with it.

    Where none is named, the data as they were and `source` itself.
    """
    name = data.get("house")
    if not isinstance(name, str):
        return data, source, ()
    without = {key: value for key, value in data.items() if key != "house"}
    found = beside(source, name, Path(source.file).parent)
    if isinstance(found, str):
        place = source.place(("house",))
        return without, source, (Problem("house-file", "error", f"house: {found}", place, "name a file beside it"),)
    read, problems = read_source(found)
    if read is None:
        return without, source, tuple(replace(p, message=f"house: {p.message}") for p in problems)
    shown = (Path(source.file).parent / name).as_posix()
    # a mapping round it, so that what is wrong at `house.name` is found in this file
    inside = Source(shown, read.lines, Mapping(Spot(1, 1), {"house": read.root}, {"house": Spot(1, 1)}))
    problems = tuple(replace(p, place=replace(p.place, file=shown)) for p in problems)
    return {**without, "house": inside.data["house"]}, inside, problems
