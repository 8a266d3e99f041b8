"""Work on the joints of cases, frames and boards: housings, grooves, rabbets and their tongues."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from model.piece import Value
from model.steps import Step
from publish.edition import Edition
from publish.words.names import counted, listed
from publish.words.notes import glued_up_words
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
    stopped = values.get("stopped")
    short = "" if not stopped else f", stopped at the {listed(str(stopped).split(', '))}"
    return f" for the {values['for']}, {size}{short}"


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
    {"tongue": "tongue", "housed end": "housed end", "panel edge": "thinned edge"},
    "Cut the tongues to fit",
    "",
    "Fit each tongue to its own groove. A panel has to move in its grooves: ease its edges until it slides.",
)


def _glue_up(edition: Edition, step: Step) -> StepWords:
    text = ["Lay the boards out in order, look at figure and colour, and draw a large triangle across all of them."]
    for item in step.items:
        part = edition.piece.parts[item.shown]
        text += [f"{item.mark}, {item.name}: {said}" for said in glued_up_words(edition, part)]
    text.append(
        "Plane the joints until they close without force. Glue, and clamp from both faces by turns: it stays flat."
    )
    text.append("When it has dried overnight, scrape off the glue and flatten it like a single board.")
    return StepWords(
        "Glue up the boards", tuple(text), "Lift wide glue-ups with a helper: long clamps make them heavy."
    )


CASE_WRITERS: dict[str, Writer] = {
    "glue up": _glue_up,
    "grooves": _grooves,
    "rabbets": _rabbets,
    "tongues": _tongues,
}
