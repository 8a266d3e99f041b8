"""The archive a buyer gets: the files of a set with a plain text that says what each is for."""

from __future__ import annotations

import textwrap
import zipfile
from collections.abc import Sequence
from pathlib import Path

from plans.design import Design
from plans.units import System
from publish.writers.manifest import Published

# a zip has no use for the day it was made: the same set is then the same bytes
DAY = (1980, 1, 1, 0, 0, 0)
READABLE = 0o644 << 16
FOR_THE_BUYER = {
    "plan set": "the plans: print at 100 %, or read on a screen",
    "cut list": "the cut list, for a spreadsheet",
    "full-size templates": "full-size templates, to be printed at 100 %",
    "template drawing": "a full-size template for a drawing program or a machine",
    "solid model": "the piece as a solid model",
}
IN_WORDS: dict[System, str] = {"inch": "inches", "mm": "millimetres"}
TWO_PIECES = (
    "The plans in inches and those in millimetres are of two pieces, each in sizes natural to its units. Build from "
    "one of them, and keep the files of the other apart."
)
WIDTH = 78


def write_archive(folder: Path, design: Design, systems: Sequence[System], files: Sequence[Published]) -> str:
    """Write the archive of the files in `folder` that are for the buyer, and give its name."""
    chosen = [file for file in files if file.kind in FOR_THE_BUYER]
    top = f"{design.stem}-r{design.spec.revision}"
    name = f"{top}-{'-'.join(systems)}.zip"
    with zipfile.ZipFile(folder / name, "w", zipfile.ZIP_DEFLATED) as archive:
        _put(archive, f"{top}/READ-ME.txt", read_me(design, systems, chosen).encode("utf-8"))
        for file in sorted(chosen, key=lambda one: one.name):
            _put(archive, f"{top}/{file.name}", (folder / file.name).read_bytes())
    return name


def _put(archive: zipfile.ZipFile, name: str, data: bytes) -> None:
    entry = zipfile.ZipInfo(name, DAY)
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.external_attr = READABLE
    entry.create_system = 3
    archive.writestr(entry, data)


def read_me(design: Design, systems: Sequence[System], files: Sequence[Published]) -> str:
    """What the buyer reads first, lines ended as every system shows them."""
    spec = design.spec
    units = " and ".join(IN_WORDS[system] for system in systems)
    lines = [_plain(spec.plan), f"Plans by {_plain(spec.maker)}, revision {spec.revision}, {spec.date.isoformat()}", ""]
    lines += _wrapped(f"This set is in {units}. It holds:")
    for file in files:
        lines += ["", f"  {file.name}", *_wrapped(_about(file), "      ")]
    lines += ["", *_wrapped("Print at 100 %, not fitted to the page, and measure the check bars before you cut.")]
    if len(systems) > len(design.printed_in):
        lines += ["", *_wrapped(TWO_PIECES)]
    lines += ["", *_wrapped("Read the guide and the cautions in the plans before you begin.")]
    if spec.licence.strip():
        lines += ["", *_wrapped(_plain(spec.licence))]
    return "\r\n".join(lines) + "\r\n"


def _about(file: Published) -> str:
    pages = "" if file.pages is None else f", {file.pages} page{'s' if file.pages != 1 else ''}"
    return f"{FOR_THE_BUYER[file.kind]}{pages}"


def _wrapped(text: str, indent: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def _plain(text: str) -> str:
    """A maker's words on one line, without characters that steer a terminal."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
