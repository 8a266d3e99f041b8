"""Hardware as one asks for it over the counter, and its counterpart in the other unit system."""

from __future__ import annotations

from dataclasses import replace

from model.takeoff import HardwareRow
from publish.edition import Edition
from publish.words.fixings import NAMES, fixing_line
from publish.words.loose import LOOSE_NAMES
from publish.words.spelling import spelt

OTHER = {"inch": "mm", "mm": "inch"}
NONE = "none"


def other_units(edition: Edition) -> str:
    """The other unit system, as a heading has it."""
    return spelt(edition, {"inch": "millimetres", "mm": "inches"}[edition.units.name])


def bought_words(edition: Edition, row: HardwareRow) -> str:
    """Size, kind, head and finish."""
    if row.what in LOOSE_NAMES:
        return LOOSE_NAMES[row.what](edition, row.values)
    if not row.values:
        return row.what
    said = [fixing_line(edition, row.what, row.values), _head(row), row.finish]
    return ", ".join(filter(None, said))


def _head(row: HardwareRow) -> str:
    """A screw in a slot bears on a washer and has a round head, which its name says; one sunk in a stepped hole may
    have any; all others are countersunk."""
    other = row.values.get("washer") or row.values.get("sunk") is not None
    return "flat head" if row.what == "wood screw" and not other else ""


def counterpart(edition: Edition, row: HardwareRow) -> str:
    """The size in the other system; `none`, or that it is made to size."""
    system = OTHER[edition.units.name]
    there = replace(edition, units=edition.piece.design.units(system))  # type: ignore[arg-type]
    if row.what == "dowel":  # bored for the one the design names
        own = system == edition.piece.design.system
        return LOOSE_NAMES["dowel"](there, row.values).removesuffix(" dowel") if own else NONE
    if row.what == "biscuit":  # one size the world over
        return f"size {row.values['size']}"
    if row.what in LOOSE_NAMES:
        return "made to size"
    if not row.values:
        return "as named"
    if "none" in (row.values.get("inch"), row.values.get("mm")):
        return NONE
    size, _ = NAMES[row.what](there, row.values)
    return size or "as named"
