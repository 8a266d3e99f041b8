"""What a drawing says at a point: a short heading, then its sizes."""

from __future__ import annotations

from collections.abc import Callable

from model.piece import Value
from plans.units import degrees
from publish.edition import Edition
from publish.words import shaped_callouts
from publish.words.names import listed
from publish.words.notes import channel_stop
from publish.words.said import Said, mm
from publish.words.spelling import spelt

FLAT = 0.25  # degrees: an angle smaller than this is not worth a word
Values = dict[str, Value]


def said(what: str, values: Values, edition: Edition) -> Said | None:
    """The words for a callout; None for what the notes of the sheet say instead."""
    writer = CALLOUTS[what]
    if writer is None:
        return None
    words = writer(values, edition)
    return Said(tuple(spelt(edition, line) for line in words.lines), words.each)


def _mortise(values: Values, edition: Edition) -> Said:
    n = edition.number
    deep = "right through" if values["deep"] is None else f"{n(mm(values, 'deep'))} deep"
    lines = [f"MORTISE for {values['for']}", f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {deep}"]
    if "haunch" in values:
        lines.append(f"haunch {n(mm(values, 'haunch'))} deep")
    if "flare" in values:
        lines.append(f"flared {n(mm(values, 'flare'))} at each end on the far side")
    leans: list[str] = []
    if mm(values, "off square") >= FLAT:
        leans += _off_square(values)
    if mm(values, "turned") >= FLAT:
        leans.append(f"turned {degrees(mm(values, 'turned'))}")
    if leans:
        lines.append(", ".join(leans))
    return Said(tuple(lines))


def _tenon(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {n(mm(values, 'long'))} long"
    lines = [f"TENON into {values['for']}", size]
    if "haunch" in values:
        lines.append(f"haunch {n(mm(values, 'haunch'))} long at the {values['haunch side']}")
    return Said(tuple(lines))


def _recess(word: str) -> Callable[[Values, Edition], Said]:
    def write(values: Values, edition: Edition) -> Said:
        n = edition.number
        head = f"{word} for {values['for']}" if "for" in values else word
        lines = [head, f"{n(mm(values, 'long'))} long, {n(mm(values, 'deep'))} deep"]
        return Said((*lines, *_leaning_walls(values)))

    return write


def _leaning_walls(values: Values) -> tuple[str, ...]:
    leaning = [
        f"{what} {degrees(slope)} off square"
        for what in ("walls", "floor")
        if isinstance(slope := values.get(what, 0.0), float) and slope >= FLAT
    ]
    return (", ".join(leaning),) if leaning else ()


def _channel(word: str) -> Callable[[Values, Edition], Said]:
    def write(values: Values, edition: Edition) -> Said:
        n = edition.number
        head = f"{word} for {values['for']}" if "for" in values else word
        lines = [head, f"{n(mm(values, 'wide'))} wide, {n(mm(values, 'deep'))} deep"]
        if stop := channel_stop(values, edition):
            lines.append(stop)
        return Said(tuple(lines))

    return write


def _housing(values: Values, edition: Edition) -> Said:
    """Its walls stand across the part, so that they may lean; those of other channels run along it."""
    said_of = _channel("HOUSING")(values, edition)
    return Said((*said_of.lines, *_leaning_walls(values)))


def _let_in_tongue(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} thick, {n(mm(values, 'long'))} long"
    return Said((f"TONGUE into {values['for']}", size))


def _housed_end(values: Values, edition: Edition) -> Said:
    return Said((f"END let into {values['for']}", f"{edition.number(mm(values, 'long'))} of the length"))


def _let_in_edges(word: str) -> Callable[[Values, Edition], Said]:
    def write(values: Values, edition: Edition) -> Said:
        held = f"{edition.number(mm(values, 'long'))} of it at the {listed(str(values['sides']).split(', '))}"
        return Said((word, held))

    return write


def _dovetail_housing(values: Values, edition: Edition) -> Said:
    n = edition.number
    lines = [
        f"DOVETAIL HOUSING for {values['for']}",
        f"{n(mm(values, 'neck'))} wide at the face, {n(mm(values, 'wide'))} at the floor, "
        f"{n(mm(values, 'deep'))} deep, {values['slope']}",
    ]
    if values["stopped"]:
        lines.append(f"stopped at the {values['stopped']}")
    return Said(tuple(lines))


def _dovetail_tongue(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'neck'))} thick at the shoulder, {n(mm(values, 'thick'))} at the end, {values['slope']}"
    return Said((f"DOVETAIL into {values['for']}", size))


def _tails(values: Values, edition: Edition) -> Said:
    n = edition.number
    count = int(mm(values, "tails"))
    head = (
        f"{count} DOVETAILS into {values['for']}, {values['slope']}" if count > 1 else f"DOVETAIL into {values['for']}"
    )
    size = f"{n(mm(values, 'wide'))} wide at the end"
    return Said((head, f"{size}, {n(mm(values, 'pin'))} between them" if count > 1 else f"{size}, {values['slope']}"))


def _pins(values: Values, edition: Edition) -> Said:
    n = edition.number
    lines = [f"PINS for {values['for']}", "mark them from its tails"]
    if mm(values, "lap"):
        lines.append(f"sockets {n(mm(values, 'deep'))} deep, lap {n(mm(values, 'lap'))}")
    return Said(tuple(lines))


def _spline_slot(values: Values, edition: Edition) -> Said:
    n = edition.number
    lies = "in the middle of the thickness" if values["flat"] else "a third of the way out from the inner arris"
    return Said(("SPLINE SLOT in the mitre", f"{n(mm(values, 'thick'))} wide, {n(mm(values, 'deep'))} deep", lies))


def _key_slot(values: Values, edition: Edition) -> Said:
    n = edition.number
    head = f"{int(mm(values, 'number'))} KEY SLOTS" if mm(values, "number") > 1 else "KEY SLOT"
    size = f"{n(mm(values, 'thick'))} wide, {n(mm(values, 'deep'))} into the corner"
    return Said((head, size, "sawn when the corner is glued, evenly spaced"))


def _fingers(values: Values, edition: Edition) -> Said:
    n = edition.number
    head = f"BOX JOINT with {values['for']}, {int(mm(values, 'fingers'))} equal fingers and gaps"
    return Said((head, f"each {n(mm(values, 'wide'))}; begin with a {values['first']} at the true edge"))


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


def _bored_off_square(values: Values) -> tuple[str, ...]:
    """Which way a hole leans, where it is not square to its side."""
    return _off_square(values) if "off square" in values else ()


def _off_square(values: Values) -> tuple[str, ...]:
    """How far something is let in off square, and to which side it goes."""
    words = f"{degrees(mm(values, 'off square'))} off square"
    return (f"{words}, in towards the {values['towards']}" if "towards" in values else words,)


def _screw_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    count = int(mm(values, "count"))
    if values.get("plugged") is not None:
        sunk = f"{edition.drill(mm(values, 'plug'))} plug hole, {n(mm(values, 'plugged'))} deep"
    elif values.get("sunk") is not None:
        sunk = f"sunk {n(mm(values, 'sunk'))} deep at {edition.drill(mm(values, 'plug'))}"
    elif values.get("slotted") is not None:
        sunk = ""
    else:
        sunk = f"countersunk to {edition.drill(mm(values, 'head'))}"
    slot = values.get("slotted")
    slotted = "" if slot is None else f"slotted to {edition.drill(mm(values, 'slot'))} {slot}"
    lines = (f"{edition.drill(mm(values, 'diameter'))} SCREW HOLE", slotted, sunk, *_bored_off_square(values))
    return Said(tuple(line for line in lines if line), count)


def _pilot_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    head = f"{edition.drill(mm(values, 'diameter'))} PILOT, {n(mm(values, 'deep'))} deep"
    return Said((head, f"bored through the {values['for']}"), int(mm(values, "count")))


def _peg_hole(values: Values, edition: Edition) -> Said:
    n = edition.number
    across = edition.drill(mm(values, "diameter"))
    if values.get("slot"):
        return Said((f"{across} × {n(mm(values, 'slot'))} SLOT for a peg",), int(mm(values, "count")))
    lines = [f"{across} PEG HOLE"]
    if values["deep"] is not None:
        lines.append(f"{n(mm(values, 'deep'))} deep")
    if values.get("nearer"):
        lines.append(f"{n(mm(values, 'nearer'))} nearer the shoulder than its mate")
    return Said(tuple(lines), int(mm(values, "count")))


def _saw_cut(values: Values, edition: Edition) -> Said:
    n = edition.number
    return Said(("SAW CUT for a wedge", f"{n(mm(values, 'deep'))} deep"), int(mm(values, "count")))


def _dowel_hole(values: Values, edition: Edition) -> Said:
    head = f"{edition.drill(mm(values, 'diameter'))} DOWEL HOLE for {values['for']}"
    lines = (head, f"{edition.number(mm(values, 'deep'))} deep", *_bored_off_square(values))
    return Said(lines, int(mm(values, "count")))


def _biscuit_slot(values: Values, edition: Edition) -> Said:
    size = f"{edition.drill(mm(values, 'thick'))} wide, {edition.drill(mm(values, 'deep'))} deep"
    return Said((f"BISCUIT SLOT for {values['for']}", f"size {values['size']}, {size}"), int(mm(values, "count")))


def _tongue(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} thick, {n(mm(values, 'long'))} long"
    return Said((f"TONGUE into {values['for']}", size))


def _end_groove(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} wide, {n(mm(values, 'deep'))} deep"
    return Said((f"GROOVE for {values['for']}", size))


def _scribe(values: Values, edition: Edition) -> Said:
    lines = [f"{str(values['side']).upper()} {str(values['what']).upper()} scribed to the {values['for']}"]
    if mm(values, "deep") >= FLAT:
        lines.append(f"{edition.number(mm(values, 'deep'))} from its longest point to its shortest")
    return Said(tuple(lines))


def _fitting_hole(values: Values, edition: Edition) -> Said:
    deep = values.get("deep")
    reach = "right through" if deep is None else f"{edition.drill(mm(values, 'deep'))} deep"
    lines = [f"{edition.drill(mm(values, 'diameter'))} HOLE for {values['for']}", reach]
    if "sunk" in values:
        lines.append(f"sunk {edition.number(mm(values, 'sunk'))} deep at {edition.drill(mm(values, 'wide'))}")
    return Said((*lines, *_bored_off_square(values)), int(mm(values, "count")))


def _fitting_recess(values: Values, edition: Edition) -> Said:
    n = edition.number
    size = f"{n(mm(values, 'long'))} × {n(mm(values, 'wide'))}, {edition.drill(mm(values, 'deep'))} deep"
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
    "housing": _housing,
    "rabbet": _channel("RABBET"),
    "groove": _channel("GROOVE"),
    "edge tongue": _let_in_tongue,
    "housed tongue": _let_in_tongue,
    "housed end": _housed_end,
    "rabbeted edge": _let_in_edges("LET INTO RABBETS"),
    "panel edge": _let_in_edges("EDGE IN GROOVES, not glued"),
    "dovetail housing": _dovetail_housing,
    "dovetail tongue": _dovetail_tongue,
    "tails": _tails,
    "pins": _pins,
    "fingers": _fingers,
    "spline slot": _spline_slot,
    "key slot": _key_slot,
    "peg hole": _peg_hole,
    "saw cut": _saw_cut,
    "tongue": _tongue,
    "scribe": _scribe,
    "end groove": _end_groove,
    "dowel hole": _dowel_hole,
    "biscuit slot": _biscuit_slot,
    "hole": shaped_callouts.hole,
    "slot": shaped_callouts.slot,
    "hand hold": shaped_callouts.hand_hold,
    "recess": shaped_callouts.recess,
    "arc": shaped_callouts.arc,
    "curve": shaped_callouts.curve,
    "relief": shaped_callouts.relief,
    "turned": shaped_callouts.turned,
    "cove": shaped_callouts.cove,
    "thumbnail": shaped_callouts.thumbnail,
    "fitting hole": _fitting_hole,
    "fitting recess": _fitting_recess,
    "glued face": None,
    "round over": None,
    "chamfer": None,
}
