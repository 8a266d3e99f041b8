"""The maker's own steps: what they are pinned to and what their words name is there."""

from collections.abc import Iterator
from typing import get_args

from plans.checks.reading import Reading
from plans.own_steps import NAMED, SIZES, OwnStep, WorkWord
from plans.problems import Problem
from plans.source import KeyPath
from plans.spec import DesignSpec
from plans.suggest import did_you_mean


def check_own_steps(reading: Reading) -> Iterator[Problem]:
    """Every entry of `steps`; only where the rest of the design is right, since it names what stands there."""
    if reading.spec is None:
        return
    for number, step in enumerate(reading.spec.steps):
        yield from _pins(reading, reading.spec, ("steps", number), step)
        for key, words in (("say", step.say), ("instead", step.instead), ("also", step.also)):
            for line, text in enumerate(words):
                path: KeyPath = ("steps", number, key, line)
                yield from names_said(reading, reading.spec, path, text)
        if step.caution:
            yield from names_said(reading, reading.spec, ("steps", number, "caution"), step.caution)


def _pins(reading: Reading, spec: DesignSpec, path: KeyPath, step: OwnStep) -> Iterator[Problem]:
    own = [other.new for other in spec.steps if other.new is not None]
    known = [*get_args(WorkWord), *spec.parts, *own]
    if step.new is not None and own.count(step.new) > 1:
        yield reading.problem(
            "name-taken", (*path, "new"), f"two steps are called '{step.new}'", "call one another way"
        )
    for key, pins in (("before", step.before), ("after", step.after)):
        for number, pin in enumerate(pins):
            if pin not in known or pin == step.called:
                hint = did_you_mean(pin, known) or "name a work such as `tapers`, a part, or a step of your own"
                message = f"there is no other step '{pin}'"
                yield reading.problem("unknown-step", (*path, key, number), message, hint)


def names_said(reading: Reading, spec: DesignSpec, path: KeyPath, text: str) -> Iterator[Problem]:
    """What words of the maker name in braces, and nothing has."""
    for said in NAMED.findall(text):
        name, _, size = said.partition(".")
        if size and (name not in spec.parts or size not in SIZES):
            hint = did_you_mean(name, spec.parts) or "write a part and `length`, `width` or `thickness`: `{leg.width}`"
            yield reading.problem("unknown-name", path, f"nothing is called '{{{said}}}'", hint)
        elif not size and name not in spec.parts and name not in spec.lengths:
            known = [*spec.parts, *spec.lengths]
            hint = did_you_mean(name, known) or "write the name of a part, or of one of the `lengths`"
            yield reading.problem("unknown-name", path, f"nothing is called '{{{said}}}'", hint)
