"""The words of every kind of step."""

from __future__ import annotations

from collections.abc import Callable

from model.steps import Step
from publish.edition import Edition
from publish.words.assembly import fixings_caution, fixings_words, stage_words
from publish.words.names import counted
from publish.words.step_words import StepWords, features
from publish.words.work import WORK_WRITERS


def step_words(edition: Edition, step: Step) -> StepWords:
    """The words of a step."""
    return WRITERS[step.kind](edition, step)


def _dry_fit(edition: Edition, step: Step) -> StepWords:
    shoulders = any(features(edition, item, "tenon", "tongue") for item in step.items)
    return StepWords(
        "Fit everything dry",
        (
            "Put the whole piece together without glue, in the order of the steps that follow.",
            f"Every {'shoulder' if shoulders else 'joint'} should close under light clamps. Stand the piece on a flat "
            "floor and look for rocking.",
            "Set out clamps, cauls and a damp cloth for each glue-up, and try the clamps as well.",
        ),
    )


def _finish(edition: Edition, step: Step) -> StepWords:
    finish = edition.piece.design.spec.finish
    assert finish is not None
    text = [
        "Sand through the grits with the grain, dust off, and raise the grain once with a damp cloth.",
        f"Apply {counted(finish.coats, 'coat')} of {finish.name}, thin, and let each dry as its maker says.",
    ]
    if finish.note:
        text.append(finish.note)
    return StepWords(
        "Finish",
        tuple(text),
        "Oily rags can catch fire by themselves: spread them flat outdoors to dry, or keep them under water in a "
        "closed tin. Work with fresh air and gloves.",
    )


def _supplies(edition: Edition, step: Step) -> StepWords:
    text = [
        f"{supply.count} × {supply.item}{': ' + supply.note if supply.note else ''}."
        for supply in edition.piece.design.spec.supplies
    ]
    return StepWords("Fit the hardware", tuple(text))


def _fittings(edition: Edition, step: Step) -> StepWords:
    return StepWords("Fit the last of the hardware", tuple(fixings_words(edition, step)), fixings_caution(step))


WRITERS: dict[str, Callable[[Edition, Step], StepWords]] = {
    **WORK_WRITERS,
    "dry fit": _dry_fit,
    "stage": stage_words,
    "finish": _finish,
    "fittings": _fittings,
    "supplies": _supplies,
}
