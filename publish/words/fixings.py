"""Fixings by the name one asks for at the counter, in the set's own unit system, and how each is fitted."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction

from model.piece import FixingMade, Value
from plans.library import screw
from plans.units import millimetres
from publish.edition import Edition
from publish.words.names import counted, listed
from publish.words.spelling import spelt

Values = dict[str, Value]

HELD = "\u00a0"  # a space at which no line is broken


Named = tuple[str, str]  # size, noun


def fixing_name(edition: Edition, kind: str, values: Values) -> str:
    """What to ask for: `No. 8 × 1 3/4 in wood screw`, `65 mm butt hinge`."""
    return spelt(edition, " ".join(NAMES[kind](edition, values)).strip())


def fixing_line(edition: Edition, kind: str, values: Values) -> str:
    """The same as a list has it, with the screws that each one needs."""
    name = fixing_name(edition, kind, values)
    if "with" in values:
        return f"{name}, each with {values['with']}"
    if "screws" not in values:
        return name
    gauge, long, count = values["gauge"], values["screw long"], values["screws"]
    assert isinstance(gauge, int) and isinstance(long, float) and isinstance(count, int)
    return f"{name}, each with {counted(count, f'{_screw(edition, gauge, long)} screw')}"


def fixing_words(edition: Edition, made: Sequence[FixingMade]) -> str:
    """The sentence that has all fixings of one kind fitted; their sizes stand apart from their numbers."""
    many: dict[Named, int] = {}
    for fixing in made:
        named = NAMES[fixing.kind](edition, fixing.values)
        many[named] = many.get(named, 0) + len(fixing.points)
    these = listed(_these(named, total) for named, total in many.items())
    return fitted_words(edition, made, these)


def fitted_words(edition: Edition, made: Sequence[FixingMade], these: str) -> str:
    """How `these` are fitted to the parts that the fixings, all of one kind, are on."""
    parts = edition.piece.parts
    onto = listed(dict.fromkeys(f"the {parts[fixing.through].kind}" for fixing in made))
    into = listed(dict.fromkeys(f"the {parts[fixing.into].kind}" for fixing in made))
    return FITTED[made[0].kind].format(these=these, onto=onto, into=into)


def _these(named: Named, total: int) -> str:
    size, noun = named
    return counted(total, noun) + (f" ({size.replace(' ', HELD)})" if size else "")


def _screw(edition: Edition, gauge: int, long: float) -> str:
    """`No. 8 × 1 3/4 in`, or its metric counterpart `4 × 45 mm`."""
    if edition.units.name == "inch":
        return f"No. {gauge} × {_sold(edition, long)}"
    known = screw(gauge)
    assert known is not None
    return f"{millimetres(known.metric_diameter, Fraction(1, 2))} × {_sold(edition, long)}"


def _sold(edition: Edition, long: float) -> str:
    """A length as it is sold: the design's own, or in the other system a step that is at most 1 mm longer.

    Screws, bolts and nails are sold in steps of 5 mm, and of 1/8 in up to 1 in and 1/4 in above (common practice).
    """
    if edition.units.name == edition.piece.design.system:
        return edition.measure(long)
    step = 5.0 if edition.units.name == "mm" else 3.175 if long < 26.0 else 6.35
    return edition.measure(math.floor((long + 1.0) / step) * step)


def _wood_screw(edition: Edition, values: Values) -> Named:
    gauge, long = values["gauge"], values["long"]
    assert isinstance(gauge, int) and isinstance(long, float)
    washer = "round-head " if values.get("washer") else ""
    return _screw(edition, gauge, long), f"{washer}wood screw"


def _sized(noun: str) -> Callable[[Edition, Values], Named]:
    """The size of the set's own system before the noun; the other system's where the thing is not sold in it."""

    def write(edition: Edition, values: Values) -> Named:
        other = {"inch": "mm", "mm": "inch"}[edition.units.name]
        size = values[edition.units.name]
        if size == "none":
            size = values[other]
        return str(size), noun.format(**values)

    return write


def _long(noun: str) -> Callable[[Edition, Values], Named]:
    """The size, then the length: `1/4-20 × 2 in machine bolt`."""

    def write(edition: Edition, values: Values) -> Named:
        long = values["long"]
        assert isinstance(long, float)
        other = {"inch": "mm", "mm": "inch"}[edition.units.name]
        size = values[edition.units.name] if values[edition.units.name] != "none" else values[other]
        return f"{size} × {_sold(edition, long)}", noun

    return write


def _pull(edition: Edition, values: Values) -> Named:
    """The table says the noun too: a knob and a bar are asked for by different words."""
    size, noun = " ".join(_sized("")(edition, values)).strip().rsplit(" ", 1)
    return size, noun


NAMES: dict[str, Callable[[Edition, Values], Named]] = {
    "wood screw": _wood_screw,
    "top fastener": _sized("{form}"),
    "butt hinge": _sized("butt hinge"),
    "shelf pin": _sized("shelf pin"),
    "pull": _pull,
    "foot leveller": _sized("foot leveller"),
    "machine bolt": _long("machine bolt"),
    "magnet": _sized("disc magnet"),
    "nail": _long("nail"),
    "drawer slide": _sized("drawer slide"),
    "lid stay": _sized("lid stay"),
    "wall strap": _sized("wall strap"),
}

# {these}: how many of what; {onto} and {into}: the two kinds of part
FITTED: dict[str, str] = {
    "wood screw": "Bore the pilots through the screw holes into {into}. Drive {these}.",
    "top fastener": "Set {these} in {onto} and screw them to {into}; leave them free to slide as the wood moves.",
    "butt hinge": "Screw {these} to {onto}, then to {into}; try the swing with one screw a leaf first.",
    "shelf pin": "Push {these} into {onto} and lay {into} on them.",
    "pull": "Bolt {these} to {onto} from behind.",
    "foot leveller": "Turn an insert into each hole under {onto}, screw in {these}, and level the piece.",
    "machine bolt": "Turn the inserts into {into}, and bolt {onto} down with {these}.",
    "magnet": "Glue {these} into {onto} and {into}, so that facing ones draw each other.",
    "nail": "Drive {these} through {onto} into {into}. Set the heads a little below the face.",
    "drawer slide": "Screw {these} to {onto} and to {into}, level and alike on both sides.",
    "lid stay": "Screw {these} to {into}. Open {onto} as far as it should go and screw them to it; see that they fold "
    "without pinching.",
    "wall strap": "Screw {these} to {onto}. Where the piece will stand, drive a screw through each into a stud or "
    "solid wall. Follow the instructions of the strap's maker, and local rules.",
}

# the caution before the act, for what can hurt
CAUTIONS: dict[str, str] = {
    "lid stay": "A falling lid can crush fingers: hold it with a helper until the stay bears it.",
    "wall strap": "A tall piece can tip and kill a child. Do not load it before it is fixed to the wall, with screws "
    "that suit the wall.",
}
