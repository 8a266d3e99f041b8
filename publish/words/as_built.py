"""The finished piece in words: what was measured where, and what the buyer is told of it."""

from __future__ import annotations

from collections.abc import Callable

from model.comparing import Compared, compared, done_differently
from plans.fields import Position, Term
from plans.measured import Measured
from plans.own_steps import SIZES
from plans.sides import Axis
from publish.edition import Edition
from publish.words.names import capital, plural
from publish.words.own_steps import filled_in

AS_BUILT = "The piece these plans were made from"
DIFFERS = "It was measured when it was done. Where it is not as drawn here, the maker says so:"
Spelled = Callable[[float], str]  # a length (mm) with its unit
Named = Callable[[str], str]  # a kind of part, as it is called


def place_words(entry: Measured, spelled: Spelled, named: Named = str) -> str:
    """`the length of the leg`, `the height over all`, `from the bottom of the rail to the floor`."""
    if entry.overall is not None:
        return f"the {entry.overall} over all"
    if entry.size is not None:
        meets = f", at the {named(entry.meets)}" if entry.meets else ""
        along = f", {entry.along}" if entry.along else ""
        part, name = named(entry.size.part), entry.size.name
        what = f"the {name} of the {part}" if name in SIZES else f"the {part}, {name}"
        return f"{what}{meets}{along}"
    assert entry.between is not None and entry.axis is not None
    first, second = (_position(place, entry.axis, spelled, named) for place in entry.between)
    height = f", at a height of {spelled(entry.measured_at)}" if entry.measured_at is not None else ""
    return f"from {first} to {second}{height}"


def _position(place: Position, axis: Axis, spelled: Spelled, named: Named) -> str:
    from_here = "the floor" if axis == "up-down" else "the centre line"
    if place.terms:
        from_here = " and ".join(_side(term, named) for term in place.terms)
    return f"{spelled(abs(place.offset))} from {from_here}" if abs(place.offset) > 1e-6 else from_here


def _side(term: Term, named: Named) -> str:
    if term.every:
        return f"the outermost {term.side} of the {plural(term.part)}"
    return f"the {term.side} of the {named(term.part)}"


def buyer_notes(edition: Edition) -> list[str]:
    """What differs on the piece that was built, and was kept for the buyer: a sentence or two each."""
    places, _ = compared(edition.piece)
    told = [_measured(edition, one) for one in places if one.entry.decided == "note" and one.differs]
    return told + [_sentence(filled_in(edition, done.what)) for done, _ in done_differently(edition.piece, "note")]


def _measured(edition: Edition, one: Compared) -> str:
    here, drawn = edition.measure(one.entry.value), edition.measure(one.way * one.drawn)
    place = place_words(one.entry, edition.measure, lambda kind: filled_in(edition, f"{{{kind}}}"))
    text = f"{capital(place)} measures {here}"
    text += "." if here == drawn else f", where these plans have {drawn}."
    return " ".join(filter(None, (text, one.entry.note and _sentence(filled_in(edition, one.entry.note)))))


def _sentence(text: str) -> str:
    text = " ".join(text.split())
    return text if text.endswith((".", "!", "?")) else f"{text}."
