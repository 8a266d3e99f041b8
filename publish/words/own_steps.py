"""The maker's own words in the steps: names and sizes in braces are filled in from the model, all else stands as is."""

from __future__ import annotations

from dataclasses import replace
from re import Match

from model.steps import Step
from plans.own_steps import NAMED, OwnStep
from publish.edition import Edition
from publish.words.names import listed
from publish.words.step_words import StepWords


def filled_in(edition: Edition, text: str) -> str:
    """`{leg}` as `leg C`, `{leg.width}` and `{shelf_height}` as lengths of this edition."""

    def said(found: Match[str]) -> str:
        name, _, size = found[1].partition(".")
        if size:
            part = next(part for part in edition.piece.parts.values() if part.kind == name)
            return edition.measure(dict(zip(("length", "width", "thickness"), part.over_all, strict=True))[size])
        if name in edition.piece.design.parts:
            marks = [item.mark for item in edition.piece.items if edition.piece.parts[item.shown].kind == name]
            return f"{name} {listed(marks)}"
        length = edition.piece.design.spec.lengths[name]
        assert isinstance(length, int | float)
        return edition.measure(float(length))

    return NAMED.sub(said, text)


def own_step(edition: Edition, step: Step) -> StepWords:
    """A step that the maker added."""
    own = step.own[0]
    text = tuple(filled_in(edition, words) for words in own.say)
    return StepWords(own.new or "", text, _said(edition, own.caution), own.wait or "")


def with_own(edition: Edition, words: StepWords, own: OwnStep) -> StepWords:
    """Our words with those of the maker: in their place, or after them. Our cautions stay."""
    instead = tuple(filled_in(edition, text) for text in own.instead)
    also = tuple(filled_in(edition, text) for text in own.also)
    return replace(
        words,
        title=own.title or words.title,
        text=(*(instead or words.text), *also),
        caution=" ".join(filter(None, (words.caution, _said(edition, own.caution)))),
        wait=own.wait or words.wait,
    )


def _said(edition: Edition, text: str | None) -> str:
    return filled_in(edition, text) if text else ""
