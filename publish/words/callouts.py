"""What a drawing says at a point: a short heading, then its sizes."""

from __future__ import annotations

from collections.abc import Callable

from model.piece import Value
from plans.units import degrees
from publish.edition import Edition
from publish.words import shaped_callouts
from publish.words.names import listed
from publish.words.said import Said, mm

FLAT = 0.25  # degrees: an angle smaller than this is not worth a word
Values = dict[str, Value]


def said(what: str, values: Values, edition: Edition) -> Said | None:
    """The words for a callout; None for what the notes of the sheet say instead."""
    writer = CALLOUTS[what]
    return None if writer is None else writer(values, edition)


def _mortise(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {n(mm(values, 'deep'))} deep"
    lines = [f"MORTISE for {values['for']}", size]
    leans = []
    if mm(values, "off square") >= FLAT:
        leans.append(f"{degrees(mm(values, 'off square'))} off square")
    if mm(values, "turned") >= FLAT:
        leans.append(f"turned {degrees(mm(values, 'turned'))}")
    if leans:
        lines.append(", ".join(leans))
    return Said(tuple(lines))


def _tenon(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {n(mm(values, 'long'))} long"
    return Said((f"TENON into {values['for']}", size))


def _recess(word: str) -> Callable[[Values, Edition], Said]:
    def write(values: Values, edition: Edition) -> Said:
        n = edition.number
        head = f"{word} for {values['for']}" if "for" in values else word
        lines = [head, f"{n(mm(values, 'long'))} long, {n(mm(values, 'deep'))} deep"]
        walls = values.get("walls", 0.0)
        if isinstance(walls, float) and walls >= FLAT:
            lines.append(f"walls {degrees(walls)} off square")
        return Said(tuple(lines))

    return write


def _sloped_end(values: Values, edition: Edition) -> Said:
    mitre, slope = mm(values, "mitre"), mm(values, "slope")
    if mitre < FLAT:
        return Said(("END at an angle", f"{degrees(slope)} through the thickness"))
    lines = ["END at an angle", f"{degrees(mitre)} across the face"]
    if slope >= FLAT:
        lines.append(f"{degrees(slope)} through the thickness")
    return Said(tuple(lines))


def _sloped_edge(values: Values, edition: Edition) -> Said:
    return Said((f"{str(values['side']).upper()} EDGE bevelled {degrees(mm(values, 'slope'))}",))


def _taper(values: Values, edition: Edition) -> Said:
    sides = listed(str(values["sides"]).split(", "))
    begins = f"begins {edition.number(mm(values, 'after'))} from the {values['from']}"
    return Said((f"TAPER the {sides} sides" if " and " in sides else f"TAPER the {sides} side", begins))


def _screw_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    count = int(mm(values, "count"))
    if values.get("plugged") is not None:
        sunk = f"{edition.drill(mm(values, 'plug'))} plug hole, {n(mm(values, 'plugged'))} deep"
    else:
        sunk = f"countersunk to {edition.drill(mm(values, 'head'))}"
    return Said((f"{edition.drill(mm(values, 'diameter'))} SCREW HOLE", sunk), count)


def _pilot_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    head = f"{edition.drill(mm(values, 'diameter'))} PILOT, {n(mm(values, 'deep'))} deep"
    return Said((head, f"bored through the {values['for']}"), int(mm(values, "count")))


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
    "hole": shaped_callouts.hole,
    "groove": shaped_callouts.groove,
    "rabbet": shaped_callouts.rabbet,
    "slot": shaped_callouts.slot,
    "hand hold": shaped_callouts.hand_hold,
    "recess": shaped_callouts.recess,
    "arc": shaped_callouts.arc,
    "curve": shaped_callouts.curve,
    "relief": shaped_callouts.relief,
    "turned": shaped_callouts.turned,
    "cove": shaped_callouts.cove,
    "thumbnail": shaped_callouts.thumbnail,
    "glued face": None,
    "round over": None,
    "chamfer": None,
}
