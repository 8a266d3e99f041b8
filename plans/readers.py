"""Reading one field: from what was written to a number in mm or degrees, a name, or a place.

Each reader takes the scope and what was written, and raises `Refusal` for what cannot stand there.
"""

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from plans.quantities import Quantity, Refusal
from plans.scope import PART_NAME, Scope
from plans.sides import SIDE_AXIS, SIDES, Side
from plans.suggest import did_you_mean
from plans.units import UNIT_MM, shown

FARTHEST = 100_000.0  # mm; furniture ends well before
MOST = 1000  # of one thing
MOST_SWING = 270  # degrees
ARRIS_WORDS = ("long", "ends", "all")


@dataclass(frozen=True)
class Term:
    """`factor` times the place of a side of a part: of the first of its kind, or the outermost of `every` one."""

    part: str
    side: Side
    factor: float
    every: bool = False


@dataclass(frozen=True)
class Position:
    """A place along one direction: the sum of `terms` plus `offset` mm, from the floor or the centre line."""

    terms: tuple[Term, ...]
    offset: float


@dataclass(frozen=True)
class SizeOfPart:
    """A size of a kind of part, by the name it has on the sheet of the part: `length`, `between shoulders`."""

    part: str
    name: str


@dataclass(frozen=True)
class CutTarget:
    """What an end or edge is cut to: the face of `part` it meets, or a `level` square to that direction."""

    part: str | None
    level: Position | None


def read_length(scope: Scope, raw: Any) -> float:
    """A length in mm."""
    mm = float(scope.number(raw, "length").value)
    if abs(mm) > FARTHEST:
        raise Refusal("wrong-size", f"this is {mm / 1000:.0f} m", "check the unit")
    return mm


def read_positive_length(scope: Scope, raw: Any) -> float:
    """A length above 0, in mm."""
    mm = read_length(scope, raw)
    if mm <= 0:
        raise Refusal(
            "wrong-size",
            f"a size above 0 is needed here, and this comes to {shown(mm, scope.units)}",
            "check the formula",
        )
    return mm


def read_gap(scope: Scope, raw: Any) -> float:
    """A length from 0, in mm; one that has been read already stands."""
    if isinstance(raw, float):
        return raw
    mm = read_length(scope, raw)
    if mm < 0:
        raise Refusal(
            "wrong-size", f"a gap cannot be below 0, and this comes to {shown(mm, scope.units)}", "check the formula"
        )
    return mm


def read_gaps(scope: Scope, raw: Any) -> Any:
    """A gap for each side; one length, or pair of them, stands for all six."""
    if isinstance(raw, dict) and not set(raw) & set(UNIT_MM):
        return raw
    return dict.fromkeys(SIDES, read_gap(scope, raw))


def read_swing(scope: Scope, raw: Any) -> float:
    """How far a door or lid swings, in degrees."""
    degrees = float(scope.number(raw, "angle").value)
    if not 0 < degrees <= MOST_SWING:
        message = f"an angle above 0 and up to {MOST_SWING} degrees is needed here, and this is {degrees:g}"
        raise Refusal("wrong-size", message, "check the angle")
    return degrees


def read_corner(scope: Scope, raw: Any) -> tuple[str, ...]:
    """One arris, by the two sides that meet there."""
    if not isinstance(raw, str) or raw in ARRIS_WORDS:
        raise Refusal("wrong-value", "an arris is named by the two sides that meet there", "as in `back bottom`")
    return tuple(_arris(raw).split())


def read_angle(scope: Scope, raw: Any) -> float:
    """An angle in degrees."""
    degrees = float(scope.number(raw, "angle").value)
    if abs(degrees) >= 90:
        raise Refusal(
            "wrong-size", f"an angle below 90 degrees is needed here, and this is {degrees:g}", "check the angle"
        )
    return degrees


def read_count(scope: Scope, raw: Any) -> int:
    """A whole number from 1."""
    number = float(scope.number(raw, "plain").value)
    if number % 1 or not 1 <= number <= MOST:
        raise Refusal(
            "wrong-count",
            f"a whole number from 1 to {MOST} is needed here, and this is {number:g}",
            "check the count",
        )
    return int(number)


def read_density(scope: Scope, raw: Any) -> float:
    """A density in kg/m3: a plain number."""
    number = float(scope.number(raw, "plain").value)
    if not 10 <= number <= 25_000:
        raise Refusal(
            "wrong-size", f"a density in kg/m3 is needed here, and this is {number:g}", "water has 1000, granite 2700"
        )
    return number


def read_ratio(scope: Scope, raw: Any) -> float:
    """A share between 0 and 1."""
    number = float(scope.number(raw, "plain").value)
    if not 0 < number < 1:
        raise Refusal(
            "wrong-size", f"a share between 0 and 1 is needed here, and this is {number:g}", "one half is `1/2`"
        )
    return number


def read_position(scope: Scope, raw: Any) -> Position:
    """A place along one direction."""
    return _as_position(scope.number(raw, "length", places=True))


def _as_position(quantity: Quantity) -> Position:
    terms = tuple(
        Term(part, next(s for s in SIDES if s == side), float(factor), every)
        for (part, side, every), factor in quantity.terms.items()
    )
    if abs(float(quantity.value)) > FARTHEST:
        raise Refusal("wrong-size", f"this is {float(quantity.value) / 1000:.0f} m away", "check the unit")
    return Position(terms, float(quantity.value))


def read_cut_target(scope: Scope, raw: Any) -> CutTarget:
    """What an end or edge is cut to: a part by its bare name, or else a level."""
    if isinstance(raw, str):
        name = " ".join(raw.split())
        if name in scope.parts:
            return CutTarget(name, None)
        if PART_NAME.fullmatch(name) and name != "floor" and name not in scope.named:
            hint = (
                did_you_mean(name, [*scope.parts, *scope.named, "floor"])
                or "name a part, the floor, or a side of a part"
            )
            raise Refusal("unknown-part", f"no part is called '{name}'", hint)
    return CutTarget(None, read_position(scope, raw))


def read_part_name(scope: Scope, raw: Any) -> str:
    """The name of a part that is there."""
    if not isinstance(raw, str):
        raise Refusal("wrong-value", "the name of a part is needed here", "write one of the names under `parts`")
    name = " ".join(raw.split())
    if name not in scope.parts:
        raise scope.unknown_part(name)
    return name


def read_size_of_part(scope: Scope, raw: Any) -> SizeOfPart:
    """A size of a part that is there; whether the part has such a size is known when it is built."""
    part, dot, name = raw.partition(".") if isinstance(raw, str) else ("", "", "")
    if not dot or not part.strip() or not name.strip():
        raise Refusal("wrong-value", "the size of a part is needed here", "write part and size, as in `leg.length`")
    return SizeOfPart(read_part_name(scope, part), " ".join(name.split()))


def read_day(scope: Scope, raw: Any) -> date:
    """A day, written year-month-day."""
    if isinstance(raw, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", raw):
        try:
            return date.fromisoformat(raw)
        except ValueError:
            pass
    raise Refusal(
        "wrong-date",
        f"{raw!r} is not a day" if raw else "a day is needed here",
        "write year-month-day, as in 2026-11-20",
    )


def read_arrises(scope: Scope, raw: Any) -> tuple[str, ...]:
    """Names of arrises: words, or the two sides that meet there."""
    words = [raw] if isinstance(raw, str) else raw
    if not isinstance(words, list) or not words or not all(isinstance(word, str) for word in words):
        raise Refusal(
            "wrong-value", "arrises are `long`, `ends`, `all`, or a list such as `[top front, top back]`", "name them"
        )
    found = tuple(_arris(word) for word in words)
    if len({frozenset(arris.split()) for arris in found}) < len(found):
        raise Refusal("wrong-value", "an arris is named twice", "name each once")
    return found


def _arris(written: str) -> str:
    words = written.split()
    if words and words[0] in ARRIS_WORDS and len(words) == 1:
        return words[0]
    for word in words:
        if word not in SIDES:
            hint = did_you_mean(word, (*SIDES, *ARRIS_WORDS)) or "an arris is named by the two sides that meet there"
            raise Refusal("unknown-word", f"'{word}' is not a side", hint)
    axes = {SIDE_AXIS[side] for side in SIDES if side in words}
    if len(words) != 2 or len(axes) != 2:
        raise Refusal(
            "wrong-value",
            f"'{written}' does not name an arris",
            "name the two sides that meet there, as in `top front`",
        )
    return " ".join(words)


def read_centred(scope: Scope, raw: Any) -> dict[str, str | None]:
    """The three ways to say it, as a mapping."""
    if isinstance(raw, dict):
        return raw
    axes = [raw] if isinstance(raw, str) else raw
    if not isinstance(axes, list) or not all(isinstance(axis, str) for axis in axes):
        raise Refusal(
            "wrong-value", "say the direction, or directions, in which it is centred", "as in `centred: left-right`"
        )
    if len(set(axes)) < len(axes):
        raise Refusal("position-twice", "a direction is named twice", "name each once")
    return dict.fromkeys(axes)
