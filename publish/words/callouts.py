"""What a drawing says at a point: a short heading, then its sizes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from model.piece import Value
from plans.units import degrees
from publish.edition import Edition
from publish.words.names import listed

FLAT = 0.25  # degrees: an angle smaller than this is not worth a word
Values = dict[str, Value]


@dataclass(frozen=True)
class Said:
    """The lines of a callout; `each` is how many things one callout stands for."""

    lines: tuple[str, ...]
    each: int = 1


def said(what: str, values: Values, edition: Edition) -> Said | None:
    """The words for a callout; None for what the notes of the sheet say instead."""
    writer = CALLOUTS[what]
    return None if writer is None else writer(values, edition)


def _mm(values: Values, name: str) -> float:
    value = values[name]
    assert isinstance(value, int | float)
    return float(value)


def _mortise(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(_mm(values, 'thick'))} × {n(_mm(values, 'wide'))}, {n(_mm(values, 'deep'))} deep"
    lines = [f"MORTISE for {values['for']}", size]
    leans = []
    if _mm(values, "off square") >= FLAT:
        leans.append(f"{degrees(_mm(values, 'off square'))} off square")
    if _mm(values, "turned") >= FLAT:
        leans.append(f"turned {degrees(_mm(values, 'turned'))}")
    if leans:
        lines.append(", ".join(leans))
    return Said(tuple(lines))


def _tenon(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(_mm(values, 'thick'))} × {n(_mm(values, 'wide'))}, {n(_mm(values, 'long'))} long"
    return Said((f"TENON into {values['for']}", size))


def _recess(word: str) -> Callable[[Values, Edition], Said]:
    def write(values: Values, edition: Edition) -> Said:
        n = edition.number
        head = f"{word} for {values['for']}" if "for" in values else word
        lines = [head, f"{n(_mm(values, 'long'))} long, {n(_mm(values, 'deep'))} deep"]
        walls = values.get("walls", 0.0)
        if isinstance(walls, float) and walls >= FLAT:
            lines.append(f"walls {degrees(walls)} off square")
        return Said(tuple(lines))

    return write


def _sloped_end(values: Values, edition: Edition) -> Said:
    mitre, slope = _mm(values, "mitre"), _mm(values, "slope")
    if mitre < FLAT:
        return Said(("END at an angle", f"{degrees(slope)} through the thickness"))
    lines = ["END at an angle", f"{degrees(mitre)} across the face"]
    if slope >= FLAT:
        lines.append(f"{degrees(slope)} through the thickness")
    return Said(tuple(lines))


def _sloped_edge(values: Values, edition: Edition) -> Said:
    return Said((f"{str(values['side']).upper()} EDGE bevelled {degrees(_mm(values, 'slope'))}",))


def _taper(values: Values, edition: Edition) -> Said:
    sides = listed(str(values["sides"]).split(", "))
    begins = f"begins {edition.number(_mm(values, 'after'))} from the {values['from']}"
    return Said((f"TAPER the {sides} sides" if " and " in sides else f"TAPER the {sides} side", begins))


def _screw_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    count = int(_mm(values, "count"))
    if values.get("plugged") is not None:
        sunk = f"{edition.drill(_mm(values, 'plug'))} plug hole, {n(_mm(values, 'plugged'))} deep"
    elif values.get("sunk") is not None:
        sunk = f"sunk {n(_mm(values, 'sunk'))} deep at {edition.drill(_mm(values, 'plug'))}"
    elif values.get("slotted") is not None:
        sunk = ""
    else:
        sunk = f"countersunk to {edition.drill(_mm(values, 'head'))}"
    slot = values.get("slotted")
    slotted = "" if slot is None else f"slotted to {edition.drill(_mm(values, 'slot'))} {slot}"
    lines = (f"{edition.drill(_mm(values, 'diameter'))} SCREW HOLE", slotted, sunk)
    return Said(tuple(line for line in lines if line), count)


def _pilot_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    head = f"{edition.drill(_mm(values, 'diameter'))} PILOT, {n(_mm(values, 'deep'))} deep"
    return Said((head, f"bored through the {values['for']}"), int(_mm(values, "count")))


def _hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    deep = values.get("deep")
    reach = "right through" if deep is None else f"{n(_mm(values, 'deep'))} deep"
    return Said((f"{edition.drill(_mm(values, 'diameter'))} HOLE, {reach}",), int(_mm(values, "count")))


def _fitting_hole(values: Values, edition: Edition) -> Said:
    deep = values.get("deep")
    reach = "right through" if deep is None else f"{edition.drill(_mm(values, 'deep'))} deep"
    lines = [f"{edition.drill(_mm(values, 'diameter'))} HOLE for {values['for']}", reach]
    if "sunk" in values:
        lines.append(f"sunk {edition.number(_mm(values, 'sunk'))} deep at {edition.drill(_mm(values, 'wide'))}")
    return Said(tuple(lines), int(_mm(values, "count")))


def _fitting_recess(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(_mm(values, 'long'))} × {n(_mm(values, 'wide'))}, {edition.drill(_mm(values, 'deep'))} deep"
    return Said((f"RECESS for {values['for']}", size))


CALLOUTS: dict[str, Callable[[Values, Edition], Said] | None] = {
    "mortise": _mortise,
    "tenon": _tenon,
    "notch": _recess("NOTCH"),
    "halving": _recess("HALVING"),
    "bridle slot": _recess("SLOT"),
    "bridle cheek": _recess("CHEEK cut back"),
    "sloped end": _sloped_end,
    "sloped edge": _sloped_edge,
    "taper": _taper,
    "screw hole": _screw_hole,
    "pilot hole": _pilot_hole,
    "hole": _hole,
    "fitting hole": _fitting_hole,
    "fitting recess": _fitting_recess,
    "glued face": None,
    "round over": None,
    "chamfer": None,
}
