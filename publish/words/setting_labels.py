"""A setting in a few words, as it stands at the cut in the picture of a step."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from model.piece import Value
from model.set_ups import SQUARE, Setting
from plans.units import degrees
from publish.edition import Edition
from publish.words.set_ups import MACHINES
from publish.words.spelling import spelt

Label = Callable[[Edition, Setting], str]
FAR_SIDE = "(far side)"


def setting_lines(edition: Edition, settings: Sequence[Setting]) -> tuple[str, ...]:
    """A line for each setting of a cut; those that print alike are told once."""
    said = (spelt(edition, LABELS[one.kind](edition, one)) for one in settings)
    return tuple(dict.fromkeys(line for line in said if line))


def _parts(edition: Edition, one: Setting) -> tuple[str, str]:
    """What the page of set-ups says of it: its first value, and those after it."""
    machine = MACHINES[one.kind]
    return machine.first(edition, one.first), machine.then(edition, one.then) if machine.then else ""


def _as(words: str) -> Label:
    """`{first}` and `{then}` filled in."""

    def write(edition: Edition, one: Setting) -> str:
        first, then = _parts(edition, one)
        return words.format(first=first, then=then)

    return write


def _tilt(edition: Edition, one: Setting) -> str:
    """The angles of blade and gauge; one that is square is not set."""
    said = [f"blade {degrees(_number(one.first))}"] if _number(one.first) >= SQUARE else []
    gauge = next(iter(one.then), None)
    if isinstance(gauge, int | float) and gauge >= SQUARE:
        said.append(f"mitre gauge {degrees(float(gauge))}")
    return ", ".join(said) or "square"


def _taper(edition: Edition, one: Setting) -> str:
    run = edition.measure(_number(one.then[0]))
    return f"{edition.measure(_number(one.first))} off over {run}"


def _number(value: Value) -> float:
    assert isinstance(value, int | float)
    return float(value)


LABELS: dict[str, Label] = {
    "tilt": _tilt,
    "taper": _taper,
    "mortise": _as("{first} bit, {then}"),
    "tenon": _as("leave {first}, {then}"),
    "trench": _as("{first} deep"),
    "groove": _as("{first} wide, {then}"),
    "tongue": _as("leave {first}, {then}"),
    "dovetail": _as("slope {first}, {then}"),
    "fingers": _as("{first} fingers, {then}"),
    "biscuit": _as("size {first}, {then}"),
    "recess": _as("{first} deep, {then}"),
    "bore": _as("{first} bit, {then}"),
    "countersink": _as("countersink {first}"),
    "slot": _as("{first} wide, {then}"),
    "arc": _as("radius {first}"),
    "cove": _as("radius {first}"),
    "thumbnail": _as("radius {first}, {then}"),
    "round over": _as("radius {first}"),
    "chamfer": _as("{first} chamfer"),
}
