"""Boring: what is said of holes in the steps."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from model.piece import Value
from model.steps import Step
from publish.edition import Edition
from publish.words.names import counted, number
from publish.words.step_words import StepWords, features, mm


def holes(edition: Edition, step: Step) -> StepWords:
    """Holes for screws, pegs, dowels and hardware: how many of each size in each part."""
    text = []
    for item in step.items:
        screw = Counter[tuple[str, str]]()
        for feature in features(edition, item, "screw hole", "hole", "fitting hole", *JOINT_HOLES):
            assert feature.operation is not None
            values = feature.operation.settings
            writer = JOINT_HOLES.get(feature.operation.name, _hole_words)
            screw[writer(edition, values)] += int(mm(values, "count"))
        for (head, reach), count in screw.items():
            text.append(f"{item.mark}, {item.name}: {_counted(count, head, edition)}{reach}.")
    if any("dowel hole" in sentence for sentence in text):
        text.append("Bore dowel holes with a jig, or mark the second part from points set in the holes of the first.")
    text.append("Back the work with scrap so that the bit does not tear out.")
    return StepWords("Bore the holes", tuple(text))


def _counted(count: int, head: str, edition: Edition) -> str:
    """`two 5 mm holes`; with a number in figures `28 holes of 5 mm`, so that two figures do not run into each other."""
    diameter, noun = head.split(f" {edition.units.suffix} ")
    if number(count).isdigit():
        return f"{counted(count, noun)} of {diameter} {edition.units.suffix}"
    return counted(count, head)


def _hole_words(edition: Edition, values: dict[str, Value]) -> tuple[str, str]:
    diameter = f"{edition.drill(mm(values, 'diameter'))} {edition.units.suffix}"
    if "head" not in values:
        deep = values.get("deep")
        reach = " right through" if deep is None else f", {edition.measure(mm(values, 'deep'))} deep"
        if values.get("step") is not None:
            wide = f"{edition.drill(mm(values, 'step'))} {edition.units.suffix}"
            reach += f", first {wide} to a depth of {edition.measure(mm(values, 'step deep'))}"
        if values.get("countersunk") is not None:
            reach += ", countersunk"
        if "for" in values:
            reach += f", for the {values['for']}"
        return f"{diameter} hole", reach
    if values.get("slotted") is not None:
        return f"{diameter} screw hole", f", slotted {values['slotted']}: bore both ends and saw out between them"
    if values.get("sunk") is not None:
        wide = f"{edition.drill(mm(values, 'plug'))} {edition.units.suffix}"
        return f"{diameter} screw hole", f", first {wide} wide and {edition.measure(mm(values, 'sunk'))} deep"
    if values.get("plugged") is None:
        return f"{diameter} screw hole", ", countersunk"
    plug = f"{edition.drill(mm(values, 'plug'))} {edition.units.suffix}"
    return f"{diameter} screw hole", f", first sunk {edition.measure(mm(values, 'plugged'))} deep for a {plug} plug"


def _peg_hole(edition: Edition, values: dict[str, Value]) -> tuple[str, str]:
    diameter = f"{edition.drill(mm(values, 'diameter'))} {edition.units.suffix}"
    if values.get("slot"):
        return f"{diameter} peg slot", f", {edition.measure(mm(values, 'slot'))} long"
    deep = "" if values["deep"] is None else f", {edition.measure(mm(values, 'deep'))} deep"
    if values.get("nearer"):
        return (
            f"{diameter} peg hole",
            f" in its tenon, {edition.measure(mm(values, 'nearer'))} nearer the shoulder than in the mortised part",
        )
    return f"{diameter} peg hole", deep


def _dowel_hole(edition: Edition, values: dict[str, Value]) -> tuple[str, str]:
    diameter = f"{edition.drill(mm(values, 'diameter'))} {edition.units.suffix}"
    return f"{diameter} dowel hole", f" for the {values['for']}, {edition.measure(mm(values, 'deep'))} deep"


JOINT_HOLES: dict[str, Callable[[Edition, dict[str, Value]], tuple[str, str]]] = {
    "peg hole": _peg_hole,
    "dowel hole": _dowel_hole,
}
