"""Work on the joints of cases, frames and boards: housings, grooves, rabbets and their tongues."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from model.piece import Value
from model.steps import Step
from publish.edition import Edition
from publish.words.names import counted
from publish.words.notes import channel_stop, glued_up_words
from publish.words.step_words import StepWords, features, mm

Say = Callable[[Edition, dict[str, Value]], str]
Writer = Callable[[Edition, Step], StepWords]


def _each(say: Say, noun: dict[str, str], title: str, first: str, last: str, caution: str = "") -> Writer:
    """A step with a sentence for each part: how many of each thing, and its sizes."""

    def write(edition: Edition, step: Step) -> StepWords:
        text = [first] if first else []
        for item in step.items:
            found = Counter[str]()
            called = {}
            for feature in features(edition, item, *noun):
                assert feature.operation is not None
                said = say(edition, feature.operation.settings)
                found[said] += 1
                called[said] = noun[feature.operation.name]
            for said, times in found.items():
                text.append(f"{item.mark}, {item.name}: {counted(times, called[said])}{said}.")
        return StepWords(title, tuple([*text, last]), caution)

    return write


def _channel(edition: Edition, values: dict[str, Value]) -> str:
    size = f"{edition.number(mm(values, 'wide'))} wide and {edition.measure(mm(values, 'deep'))} deep"
    stop = channel_stop(values, edition)
    return f" {_where(values)}, {size}{', ' + stop if stop else ''}"


def _where(values: dict[str, Value]) -> str:
    if "for" in values:
        return f"for the {values['for']}"
    return f"along the {values['edge']}" if "edge" in values else f"in the {values['side']}"


def _tongue(edition: Edition, values: dict[str, Value]) -> str:
    return f", {edition.number(mm(values, 'thick'))} thick and {edition.measure(mm(values, 'long'))} long"


_grooves = _each(
    _channel,
    {"housing": "housing", "groove": "groove"},
    "Cut the housings and grooves",
    "Cut these while the faces are flat and the edges true. Work from the true face and the true edge.",
    "Try each width on scrap first with the part that goes in: it should slide in by hand, and not fall out.",
    "Keep hands clear of the opening in the table: the cutter comes out of it where the groove runs out.",
)
_rabbets = _each(
    _channel,
    {"rabbet": "rabbet"},
    "Cut the rabbets",
    "",
    "Take the last shaving towards the line, and square up the inner corners with a chisel where a rabbet stops.",
)
_tongues = _each(
    _tongue,
    {"edge tongue": "tongue", "housed tongue": "tongue", "housed end": "housed end", "panel edge": "thinned edge"},
    "Cut the tongues to fit",
    "",
    "Fit each tongue to its own groove. A panel has to move in its grooves: ease its edges until it slides.",
)


def _dovetailed(edition: Edition, values: dict[str, Value]) -> str:
    n = edition.number
    wide, neck = mm(values, "wide" if "wide" in values else "thick"), mm(values, "neck")
    deep = edition.measure(mm(values, "deep" if "deep" in values else "long"))
    return f" ({values['for']}), {n(neck)} narrowing from {n(wide)} over {deep}, slope {values['slope']}"


def _tails_and_pins(edition: Edition, values: dict[str, Value]) -> str:
    if "tails" in values:
        return f", {counted(int(mm(values, 'tails')), 'tail')} into the {values['for']}, slope {values['slope']}"
    blind = f", sockets {edition.measure(mm(values, 'deep'))} deep" if mm(values, "lap") else ""
    return f" for the {values['for']}{blind}"


def _finger_words(edition: Edition, values: dict[str, Value]) -> str:
    size = f"{int(mm(values, 'fingers'))} equal fingers and gaps of {edition.measure(mm(values, 'wide'))}"
    return f" for the {values['for']}, {size}, beginning with a {values['first']}"


def _slot(edition: Edition, values: dict[str, Value]) -> str:
    size = f"{edition.number(mm(values, 'thick'))} wide and {edition.measure(mm(values, 'deep'))} deep"
    return f" towards the {values['for']}, {size}"


_spline_slots = _each(
    _slot,
    {"spline slot": "slot"},
    "Cut the slots for splines",
    "Stand each mitre flat on the table, held in a jig, with the outside of the part always towards the fence.",
    "Plane the splines to slide in by hand, with their grain across the joint.",
    "Clamp the part to the jig: its end is too small to guide by hand.",
)

_sliding_dovetails = _each(
    _dovetailed,
    {"dovetail housing": "housing", "dovetail tongue": "dovetail"},
    "Cut the sliding dovetails",
    "Cut every housing first, in two passes: a straight one for most of the waste, then the dovetail cutter.",
    "Shave both cheeks of each dovetail by equal amounts until it slides halfway by hand and goes home with taps.",
)
_dovetails = _each(
    _tails_and_pins,
    {"tails": "tailed end", "pins": "pinned end"},
    "Cut the dovetails",
    "Cut the tails first. Set the pins out from them: lay each tail board on its own pin board and mark with a knife.",
    "Saw on the waste side of the lines, chop halfway from each face, and pare to the line. Letter every corner.",
    "Keep both hands behind the edge of the chisel, and clamp the board down.",
)
_fingers = _each(
    _finger_words,
    {"fingers": "end"},
    "Cut the box joints",
    "Set the jig so that a finger fills a gap with light pressure; try it on scrap of the same thickness.",
    "Stand the true edge of every board against the stop for its first cut, so that the edges meet at the corner.",
    "Clamp the board to the jig: it must not lift in the cut.",
)


def _biscuit_slot(edition: Edition, values: dict[str, Value]) -> str:
    return f" of {counted(int(mm(values, 'count')), 'slot')} for size {values['size']}, against the {values['for']}"


_biscuit_slots = _each(
    _biscuit_slot,
    {"biscuit slot": "row"},
    "Cut the biscuit slots",
    "Lay the parts together as they will be, and strike a pencil line across both for the middle of each biscuit.",
    "Work from the faces that have to lie flush, with the fence of the joiner on them.",
)


def _glue_up(edition: Edition, step: Step) -> StepWords:
    text = ["Lay the boards out in order, look at figure and colour, and draw a large triangle across all of them."]
    for item in step.items:
        part = edition.piece.parts[item.shown]
        text += [f"{item.mark}, {item.name}: {said[0].lower()}{said[1:]}" for said in glued_up_words(edition, part)]
    text.append(
        "Plane the joints until they close without force. Glue, and clamp from both faces by turns: it stays flat."
    )
    text.append("When it is dry, scrape off the glue and flatten it like a single board.")
    return StepWords(
        "Glue up the boards", tuple(text), "Lift wide glue-ups with a helper: long clamps make them heavy."
    )


CASE_WRITERS: dict[str, Writer] = {
    "glue up": _glue_up,
    "grooves": _grooves,
    "rabbets": _rabbets,
    "tongues": _tongues,
    "spline slots": _spline_slots,
    "sliding dovetails": _sliding_dovetails,
    "dovetails": _dovetails,
    "box joints": _fingers,
    "biscuit slots": _biscuit_slots,
}
