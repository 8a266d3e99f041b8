"""What a drawing says of curves, mouldings, turning and what is sunk into a part."""

from __future__ import annotations

from model.piece import Value
from publish.edition import Edition
from publish.words.names import listed
from publish.words.notes import arris_words
from publish.words.said import Said, mm

Values = dict[str, Value]


def hole(values: Values, edition: Edition) -> Said:
    """`2× 5 HOLE, 10 deep`, then what widens its mouth."""
    n = edition.number
    deep = values.get("deep")
    reach = "right through" if deep is None else f"{n(mm(values, 'deep'))} deep"
    lines = [f"{edition.drill(mm(values, 'diameter'))} HOLE, {reach}"]
    if values.get("step") is not None:
        size = f"{edition.drill(mm(values, 'step'))}, {n(mm(values, 'step deep'))} deep"
        lines.append(f"stepped to {size}, from the {values['mouth']}")
    if values.get("countersunk") is not None:
        lines.append(f"countersunk to {edition.drill(mm(values, 'countersunk'))} from the {values['mouth']}")
    return Said(tuple(lines), int(mm(values, "count")))


def slot(values: Values, edition: Edition) -> Said:
    """Over all, with round ends."""
    n = edition.number
    deep = "right through" if values["deep"] is None else f"{n(mm(values, 'deep'))} deep"
    return Said(("SLOT, round ends", f"{n(mm(values, 'wide'))} × {n(mm(values, 'long'))} over all, {deep}"))


def hand_hold(values: Values, edition: Edition) -> Said:
    """The opening, and how its rim is eased."""
    n = edition.number
    lines = ["HAND HOLD, right through", f"{n(mm(values, 'wide'))} × {n(mm(values, 'long'))} over all, round ends"]
    if values["eased"] is not None:
        lines.append(f"round over both rims {edition.measure(mm(values, 'eased'))}")
    return Said(tuple(lines))


def recess(values: Values, edition: Edition) -> Said:
    """Its plan and depth."""
    n = edition.number
    deep = f"{n(mm(values, 'deep'))} deep"
    if "diameter" in values:
        return Said((f"RECESS {edition.drill(mm(values, 'diameter'))} across", deep))
    lines = ["RECESS", f"{n(mm(values, 'wide'))} × {n(mm(values, 'long'))}, {deep}"]
    if values["corners"] is not None:
        lines.append(f"corners to radius {n(mm(values, 'corners'))}")
    return Said(tuple(lines))


def arc(values: Values, edition: Edition) -> Said:
    """The radius that follows from chord and rise."""
    return Said((f"ARC, {values['bend']}", f"radius {edition.measure(mm(values, 'radius'))}"))


def curve(values: Values, edition: Edition) -> Said:
    """How to draw it."""
    return Said(("FAIR CURVE", "batten through the points shown"))


def relief(values: Values, edition: Edition) -> Said:
    """A cranked end has a level length; a tapered one has none."""
    return Said(("CRANKED END" if mm(values, "level") else "TAPERED END",))


def turned(values: Values, edition: Edition) -> Said:
    """One size, or straight between several."""
    if values["diameter"] is not None:
        return Said((f"TURNED to {edition.number(mm(values, 'diameter'))} diameter",))
    lines = ["TURNED round", "straight between the diameters shown"]
    if not values["whole"]:
        lines.append("square beyond them")
    return Said(tuple(lines))


def cove(values: Values, edition: Edition) -> Said:
    """Its radius and where it runs."""
    where = arris_words(str(values["arrises"]).split("; "))
    return Said((f"COVE, radius {edition.number(mm(values, 'radius'))}", f"along {where}"))


def thumbnail(values: Values, edition: Edition) -> Said:
    """Its radius, its step and where it runs."""
    pairs = [name.split() for name in str(values["arrises"]).split("; ")]
    edges = listed(edge for _, edge in pairs)
    lines = [f"THUMBNAIL, radius {edition.number(mm(values, 'radius'))}"]
    if mm(values, "step"):
        lines.append(f"{edition.number(mm(values, 'step'))} step down from the {pairs[0][0]}")
    return Said((*lines, f"along the {edges} edge{'s' if len(pairs) > 1 else ''}"))
