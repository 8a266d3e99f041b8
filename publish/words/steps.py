"""The words of every kind of step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from model.steps import Step
from publish.edition import Edition
from publish.words.assembly import fixings_caution, fixings_words, stage_words
from publish.words.bench_work import level, make_templates, sand
from publish.words.milestones import wait
from publish.words.names import counted
from publish.words.own_steps import own_step, with_own
from publish.words.spelling import spelt
from publish.words.step_words import StepWords, features
from publish.words.work import WORK_WRITERS


def step_words(edition: Edition, step: Step) -> StepWords:
    """The words of a step, of all that is told in it, with those of the maker."""
    first, *others = (_words(edition, one) for one in step.every)
    for other in others:
        caution = " ".join(filter(None, (first.caution, other.caution)))
        first = replace(first, text=(*first.text, *other.text), caution=caution, wait=other.wait or first.wait)
    title = next((own.title for one in step.every for own in one.own if own.title), first.title)
    return replace(first, title=title)


def _words(edition: Edition, step: Step) -> StepWords:
    if step.kind == "own":
        return own_step(edition, step)
    words = WRITERS[step.kind](edition, step)
    words = _spelt(edition, replace(words, wait=words.wait or wait(edition, step)))
    for own in step.own:
        words = with_own(edition, words, own)
    return words


def _spelt(edition: Edition, words: StepWords) -> StepWords:
    text = tuple(spelt(edition, sentence) for sentence in words.text)
    title, caution, waiting = (spelt(edition, said) for said in (words.title, words.caution, words.wait))
    return StepWords(title, text, caution, waiting)


def _dry_fit(edition: Edition, step: Step) -> StepWords:
    shoulders = any(features(edition, item, "tenon", "tongue") for item in step.items)
    floor = edition.piece.design.spec.stands == "on the floor"
    stands = "Stand the piece on a flat floor and look for rocking." if floor else "Look along it for wind."
    return StepWords(
        "Fit everything dry",
        (
            "Put the whole piece together without glue, in the order of the steps that follow.",
            f"Every {'shoulder' if shoulders else 'joint'} should close under light clamps. {stands}",
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
    "templates": make_templates,
    "sand": sand,
    "level": level,
    "stage": stage_words,
    "finish": _finish,
    "fittings": _fittings,
    "supplies": _supplies,
}
