"""The work of the saw, the router and the lathe on single parts: curves, mouldings, turning, grooves, recesses."""

from __future__ import annotations

from model.piece import Feature, Item, Value
from model.steps import Step
from publish.edition import Edition
from publish.words.names import capital, counted, listed, number, plural
from publish.words.notes import arris_words
from publish.words.step_words import StepWords, features, mm


def _settings(feature: Feature) -> dict[str, Value]:
    assert feature.operation is not None
    return feature.operation.settings


def curves(edition: Edition, step: Step) -> StepWords:
    """Arcs, fair curves and relieved ends."""
    text = []
    for item in step.items:
        for feature in features(edition, item, "arc", "curve", "relief"):
            text.append(f"{item.mark}, {item.name}: {_line(edition, feature)}.")
    text.append("Mark it from the full-size template. Saw outside the line, then fair it by eye and hand.")
    return StepWords("Saw the shaped edges", tuple(text), "Keep the guide of the bandsaw just above the work.")


def _line(edition: Edition, feature: Feature) -> str:
    values = _settings(feature)
    edge = f"the {values['sides']} edge"
    if feature.kind == "arc":
        return f"{edge} {values['bend']}, to a radius of {edition.measure(mm(values, 'radius'))}"
    if feature.kind == "curve":
        return f"{edge}, a batten bent through the {number(int(mm(values, 'points')))} points of the drawing"
    ends = number(len(str(values["ends"]).split(", ")))
    act = "cranked" if mm(values, "level") else "tapered"
    return f"{edge} {act} at {ends} {'end' if ends == 'one' else 'ends'}, by {edition.measure(mm(values, 'rise'))}"


def turning(edition: Edition, step: Step) -> StepWords:
    """Work of the lathe."""
    text = ["Mark the centres on both ends from the diagonals."]
    for item in step.items:
        for feature in features(edition, item, "turned"):
            values = _settings(feature)
            if values["diameter"] is not None:
                text.append(f"{item.mark}, {item.name}: to {edition.measure(mm(values, 'diameter'))} diameter.")
                continue
            sizes = f"{edition.number(mm(values, 'thickest'))} to {edition.measure(mm(values, 'thinnest'))}"
            text.append(f"{item.mark}, {item.name}: diameters from {sizes}, as drawn.")
    text.append("Part in at each place to its diameter with callipers, then join the cuts.")
    return StepWords(
        "Turn the round parts",
        tuple(text),
        "Wear a face shield. Turn the work by hand once before you start the lathe, and take the rest away to sand.",
    )


def slots(edition: Edition, step: Step) -> StepWords:
    """Slots and hand holds."""
    text = []
    for item in step.items:
        for feature in features(edition, item, "slot", "hand hold"):
            values = _settings(feature)
            size = f"{edition.number(mm(values, 'wide'))} wide, {edition.measure(mm(values, 'long'))} long over all"
            text.append(f"{item.mark}, {item.name}: a {feature.kind}, {size}.")
    text.append("Bore the two ends first; saw or rout between them.")
    return StepWords("Cut the slots", tuple(text))


def recesses(edition: Edition, step: Step) -> StepWords:
    """Flat-bottomed beds, those of hardware among them."""
    text = []
    for item in step.items:
        text += [f"{item.mark}, {item.name}: {line}." for line in _beds(edition, item)]
    if any(features(edition, item, "fitting recess") for item in step.items):
        text.append("Mark the bed of a piece of hardware round the piece itself.")
    text.append("Try the depth on scrap.")
    return StepWords("Let in the recesses", tuple(text))


def _beds(edition: Edition, item: Item) -> list[str]:
    alike: dict[str, int] = {}
    for feature in features(edition, item, "recess", "fitting recess"):
        values = _settings(feature)
        n = edition.number
        if "diameter" in values:
            plan = f"{edition.drill(mm(values, 'diameter'))} {edition.units.suffix} across"
        else:
            plan = f"{n(mm(values, 'wide'))} × {n(mm(values, 'long'))}"
        deep = f"{edition.drill(mm(values, 'deep'))} {edition.units.suffix} deep"
        words = f"{plan}, {deep}" + (f", for the {values['for']}" if "for" in values else "")
        alike[words] = alike.get(words, 0) + 1
    return [f"{counted(times, 'recess')}, {words}" for words, times in alike.items()]


def mouldings(edition: Edition, step: Step) -> StepWords:
    """Coves and thumbnails."""
    text = []
    for item in step.items:
        for feature in features(edition, item, "cove", "thumbnail"):
            values = _settings(feature)
            where = arris_words(str(values["arrises"]).split("; "))
            radius = edition.measure(mm(values, "radius"))
            text.append(f"{item.mark}, {item.name}: {feature.kind} to a radius of {radius}, along {where}.")
    kinds = {feature.kind for item in step.items for feature in features(edition, item, "cove", "thumbnail")}
    text.append(
        "Mould across the end grain first, then along the grain: that cut takes away what tore out at the corners."
    )
    return StepWords(
        capital(f"run the {listed(sorted(plural(kind) for kind in kinds))}"),
        tuple(text),
        "Take a large cutter in several shallow passes, at a low speed.",
    )
