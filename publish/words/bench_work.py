"""Work that is not done to one part: templates, sanding before glue, levelling."""

from __future__ import annotations

from model.steps import Step
from model.templates import templates
from plans.joints import GroovedPanel
from publish.edition import Edition
from publish.words.names import listed
from publish.words.step_words import StepWords


def make_templates(edition: Edition, step: Step) -> StepWords:
    """Which parts have a full-size template, and how it is brought to the wood."""
    served = listed(dict.fromkeys(mark for template in templates(edition.piece) for mark in template.marks))
    return StepWords(
        "Make the templates",
        (
            f"Print the full-size templates of {served} at 100 % and measure the check bar on every sheet.",
            "Glue them to thin plywood or card, cut to the line, and sand the edge fair.",
            "Mark the wood with a knife or a sharp pencil. Turn a template over where it says so.",
        ),
    )


def sand(edition: Edition, step: Step) -> StepWords:
    """What cannot be reached once it is glued."""
    text = [
        "Take it apart and sand the faces that will lie inside; you cannot reach them when it is glued.",
        "Keep off shoulders, tenons and glue faces: a rounded shoulder shows as a gap.",
    ]
    spec = edition.piece.design.spec
    floating = {entry.of for entry in spec.joints if isinstance(entry, GroovedPanel)}
    panels = [item.mark for item in step.items if edition.piece.parts[item.shown].kind in floating]
    if panels and spec.finish is not None:
        text.append(f"Finish the edges and tongues of {listed(panels)} now: no bare wood shows when the wood shrinks.")
    return StepWords("Sand the inside faces", tuple(text), "Sanding dust harms the lungs: use extraction and a mask.")


def level(edition: Edition, step: Step) -> StepWords:
    """The feet on a flat surface."""
    return StepWords(
        "Level the feet",
        (
            "Stand the piece on a flat surface and put thin wedges under the feet until it is level and does not rock.",
            "Scribe round every foot with a pencil lying on a block, saw or plane to the line, and break the arris.",
            "Where it stands firm already, leave it.",
        ),
    )
