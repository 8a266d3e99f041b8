"""The design reconciled with the finished piece, in words: for the maker's screen, and as JSON for a program."""

from __future__ import annotations

import json
from fractions import Fraction

from model.comparing import Compared, done_differently
from model.reconcile import Proposal, Reconciled
from plans.driving import Driving
from plans.measured import Decision
from plans.problems import Place
from plans.units import FRACTION_SLASH, inches, millimetres, shown
from publish.words.as_built import place_words
from publish.words.changes import Section
from publish.words.names import capital, counted, listed, number

NOTHING_MEASURED = (
    "nothing is measured in this design; write what you measured on the finished piece under `measured:`, "
    "as in `- {size: leg.length, is: 17 3/16}`"
)
TO_DECIDE = (
    "Of each difference say what is made of it: `decided: adopt` (the design is to follow), `decided: note` (the buyer "
    "is told), or `decided: slip` (the piece was made wrong there)."
)
UNTOUCHED = "The design file was not touched."
DECIDED: dict[Decision | None, str] = {
    None: "nothing decided yet",
    "adopt": "to be adopted",
    "note": "kept as a note for the buyer",
    "slip": "a slip, not followed",
}
CURES: dict[Decision | None, str] = {
    None: ": say `decided: adopt`, `note` or `slip`",
    "adopt": ": write it into the design, then take the entry out",
}
FINEST_INCH, FINEST_MM = Fraction(1, 1024), Fraction(1, 1000)


def agrees(found: Reconciled) -> bool:
    """Whether nothing is left to be decided, or to be written into the design."""
    words = [done for decided in (None, "adopt") for done in done_differently(found.piece, decided)]
    return not found.open and not found.missing and not words


def in_words(found: Reconciled) -> str:
    """Everything found, for a screen."""
    told = [title(found)]
    told += [f"{one.heading}\n" + "\n".join(f"  {line}" for line in one.lines) for one in sections(found)]
    if any(one.entry.decided is None for one in found.open):
        told.append(TO_DECIDE)
    if found.proposals:
        told.append(UNTOUCHED)
    return "\n\n".join(told)


def title(found: Reconciled) -> str:
    """How many places were measured, and how many differ."""
    plan, count = found.piece.design.spec.plan, len(found.places)
    if not count and not found.missing and not found.piece.design.spec.did_differently:
        return f"{plan}: {NOTHING_MEASURED}."
    differ = sum(one.differs for one in found.places)
    said = f"{number(differ)} of them not as drawn" if differ else "all as drawn"
    return f"{plan}: {counted(count, 'place')} measured, {said}."


def sections(found: Reconciled) -> list[Section]:
    """The differences, what explains them, what nothing explains, and what was done differently."""
    every = (
        ("Not as drawn, the largest difference first", [_place(found, one) for one in found.places if one.differs]),
        ("Numbers that explain it", [line for proposal in found.proposals for line in _proposal(found, proposal)]),
        ("With the numbers changed so", _after(found)),
        ("What nothing explains", _left(found)),
        ("Numbers that nothing measured shows", [listed(one.name for one in found.unseen)] if found.unseen else []),
        ("Done differently", _words(found)),
        ("As drawn, within what the measuring may be out by", _agreeing(found)),
    )
    return [Section(heading, tuple(lines)) for heading, lines in every if lines]


def _at(place: Place) -> str:
    return f"{place.file}:{place.line}:{place.column}"


def _place(found: Reconciled, one: Compared) -> str:
    units = found.piece.design.spec.units
    off = one.off()
    is_, drawn, more = (shown(mm, units) for mm in (one.entry.value, one.way * one.drawn, abs(off)))
    more = "a hair" if more == shown(0.0, units) else more
    way = "more" if off > 0 else "less"
    decided = f"; {DECIDED[one.entry.decided]}" if one.entry.decided else ""
    times = f"{one.times:.1f} times the give or take"
    return f"line {one.place.line}: {_named(found, one)}: {is_}, drawn {drawn}; {more} {way}, {times}{decided}"


def _named(found: Reconciled, one: Compared) -> str:
    return place_words(one.entry, lambda mm: shown(mm, found.piece.design.spec.units))


def _proposal(found: Reconciled, proposal: Proposal) -> list[str]:
    driving = proposal.driving
    edit = f"{driving.written.strip()} -> {written_as(driving, proposal.value)}"
    lines = [f"{_at(driving.place)}: {driving.name}: {edit}"]
    if driving.written != driving.text:
        lines.append(f"    in {driving.text}")
    by_number = {one.number: one for one in found.places}
    lines += [
        f"    line {one.place.line}: {_named(found, one)}" for one in map(by_number.__getitem__, proposal.explains)
    ]
    if len(proposal.explains) == 1:
        lines.append("    one place only: measure it again before you change the design, or call it a slip")
    if proposal.instead:
        names = listed(f"{other.name} ({_at(other.place)})" for other in proposal.instead)
        lines.append(f"    cannot be told apart from {names}: measure something that only one of them moves")
    return lines


def written_as(driving: Driving, value: float) -> str:
    """A value (mm, degrees) as one would type it in the place of the number that stands there."""
    if driving.kind == "angle":
        unit = next((word for word in (" deg", "deg", "°") if driving.written.rstrip().endswith(word)), "")
        return f"{round(value, 3):g}{unit}"
    if driving.system == "mm":
        return millimetres(value, FINEST_MM) + (" mm" if driving.units != "mm" or "mm" in driving.written else "")
    said = inches(value, FINEST_INCH).replace(FRACTION_SLASH, "/")
    return said + ("" if driving.written.strip()[-1:].isdigit() and driving.units == "inch" else " in")


def _after(found: Reconciled) -> list[str]:
    if not found.proposals:
        return []
    if not found.after:
        told = [f"the piece cannot be built so: {problem.message} ({_at(problem.place)})" for problem in found.wrong]
        return told or ["the piece cannot be measured so"]
    units = found.piece.design.spec.units
    still = [one for one in found.places if one.number in found.left]
    if not still:
        return ["every place that is to agree does"]
    return [
        f"{_named(found, one)} would be drawn {shown(one.way * found.after[one.number], units)}, "
        f"and is {shown(one.entry.value, units)}"
        for one in still
    ]


def _left(found: Reconciled) -> list[str]:
    lines = [
        f"line {one.place.line}: {_named(found, one)}: measure it again; then name the number that sets it under "
        "`lengths`, or say `decided: note` or `decided: slip`"
        for one in found.places
        if one.number in found.left
    ]
    rigid = listed(driving.name for driving in found.rigid)
    return lines + ([f"what {rigid} would do is not known: changed, the piece cannot be built"] if rigid else [])


def _words(found: Reconciled) -> list[str]:
    order: tuple[Decision | None, ...] = (None, "adopt", "note", "slip")
    return [
        f"line {place.line}: {' '.join(done.what.split())} ({DECIDED[decided]}{CURES.get(decided, '')})"
        for decided in order
        for done, place in done_differently(found.piece, decided)
    ]


def _agreeing(found: Reconciled) -> list[str]:
    names = [_named(found, one) for one in sorted(found.places, key=lambda one: one.number) if not one.differs]
    return [capital(name) for name in names]


def reconciled_json(found: Reconciled) -> str:
    """Everything found as one JSON object; lengths in mm, angles in degrees, places of the file as it counts lines."""
    data = {
        "design": found.piece.design.spec.plan,
        "agrees": agrees(found),
        "places": [_place_data(found, one) for one in found.places],
        "proposals": [_proposal_data(proposal) for proposal in found.proposals],
        "left": [one.place.line for one in found.places if one.number in found.left],
        "not shown": [driving.name for driving in found.unseen],
        "not found": [{"line": p.place.line, "message": p.message, "hint": p.hint} for p in found.missing],
        "cannot be built": [problem.message for problem in found.wrong],
        "done differently": [
            {"line": place.line, "what": done.what, "decided": done.decided}
            for decided in DECIDED
            for done, place in done_differently(found.piece, decided)
        ],
        "said": {section.heading: list(section.lines) for section in sections(found)},
    }
    return json.dumps(data, indent=2, ensure_ascii=False)


def _place_data(found: Reconciled, one: Compared) -> dict[str, object]:
    after = found.after.get(one.number)
    return {
        "line": one.place.line,
        "place": _named(found, one),
        "measured": round(one.entry.value, 4),
        "give or take": round(one.tolerance, 4),
        "drawn": round(one.way * one.drawn, 4),
        "times": round(one.times, 3),
        "differs": one.differs,
        "decided": one.entry.decided,
        "drawn as proposed": None if after is None else round(one.way * after, 4),
    }


def _proposal_data(proposal: Proposal) -> dict[str, object]:
    driving = proposal.driving
    return {
        "name": driving.name,
        "file": driving.place.file,
        "line": driving.place.line,
        "column": driving.place.column,
        "kind": driving.kind,
        "from": driving.written,
        "to": written_as(driving, proposal.value),
        "value": round(proposal.value, 6),
        "explains": list(proposal.explains),
        "instead": [other.name for other in proposal.instead],
    }
