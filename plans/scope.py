"""The named values of a design, and the sizes its parts state: what formulas may speak of."""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from plans.formulas import evaluate
from plans.quantities import FUNCTIONS, Quantity, Refusal, as_angle, as_length
from plans.sides import SIDES
from plans.suggest import did_you_mean, listed
from plans.units import UNIT_MM, System

Kind = Literal["length", "angle", "plain"]
KeyPath = tuple[str | int, ...]

SECTIONS: dict[str, Kind] = {"lengths": "length", "angles": "angle", "counts": "plain"}
DEPTH_LIMIT = 60  # of formulas that lead to formulas, and the brackets in them
SIZES = ("length", "width", "thickness")
RESERVED = frozenset({"floor", "all", "in", "inch", "ft", "mm", "deg", *FUNCTIONS})
NAME = re.compile(r"[^\W\d]\w*")
PART_NAME = re.compile(r"[^\W\d]\w*( \w+)*")
_DIMENSION: dict[Kind, tuple[int, int]] = {"length": (1, 0), "angle": (0, 1), "plain": (0, 0)}
_NEEDED: dict[Kind, str] = {"length": "a length", "angle": "an angle", "plain": "a plain number"}


@dataclass(frozen=True)
class Named:
    """A value that formulas may speak of: what was written, where, and what it measures."""

    raw: Any
    path: KeyPath
    kind: Kind


@dataclass
class Scope:
    """Looks values up, works each out once, and keeps what was wrong with them in `findings`.

    `units` is the meaning of a bare length; `system` chooses between the members of a pair.
    """

    units: System
    system: System
    named: dict[str, Named] = field(default_factory=dict)
    parts: dict[str, dict[str, Any]] = field(default_factory=dict)
    findings: list[tuple[KeyPath, Refusal]] = field(default_factory=list)
    _known: dict[str, Quantity | None] = field(default_factory=dict)
    _open: list[str] = field(default_factory=list)
    _depth: int = 0

    def number(self, raw: Any, kind: Kind, places: bool = False) -> Quantity:
        """What a field comes to, as a `kind`: a formula, or a pair of them. `places` allows sides of parts."""
        chosen: Quantity | None = None
        for member, text, unit in self._members(raw):
            cost = 2 + text.count("(")
            self._depth += cost
            try:
                self._check_depth()
                quantity = self._checked(evaluate(text, _Lookup(self, places), unit), kind, unit)
            except Refusal as refusal:
                refusal.member = member
                raise
            finally:
                self._depth -= cost
            chosen = quantity if member in ("", self.system) else chosen
        assert chosen is not None
        return chosen

    def value(self, name: str) -> Quantity:
        """The value of a name."""
        if name == "floor":
            return Quantity(Fraction(0), 1)
        if name not in self.named:
            raise self._unknown(name)
        return self._worked_out(name, self.named[name])

    def size(self, part: str, what: str) -> Quantity:
        """The length, width or thickness that a part states."""
        raw = self.parts[part].get(what)
        if raw is None:
            message = f"the {what} of {part} is not stated; it is found from the piece"
            raise Refusal("not-measured-yet", message, f"state the {what} of {part}, or use a named length")
        return self._worked_out(f"{part}.{what}", Named(raw, ("parts", part, what), "length"))

    def worked_out(self, section: str) -> dict[str, float]:
        """The values of `lengths` (mm), `angles` (degrees) or `counts` by name, without those that are wrong."""
        found = {name: self._known.get(name) for name, named in self.named.items() if named.path[0] == section}
        return {name: float(quantity.value) for name, quantity in found.items() if quantity is not None}

    def unknown_part(self, name: str) -> Refusal:
        """The refusal of a part that is not there."""
        known = f"the parts are {listed(self.parts)}" if 0 < len(self.parts) < 7 else "use a name under `parts`"
        return Refusal("unknown-part", f"no part is called '{name}'", did_you_mean(name, self.parts) or known)

    def _check_depth(self) -> None:
        if self._depth > DEPTH_LIMIT:
            message = "values lead to values, and brackets to brackets, too deep"
            raise Refusal("formula-too-long", message, "give some of them numbers of their own")

    def _worked_out(self, name: str, named: Named) -> Quantity:
        if name in self._open:
            raise self._loop(name)
        if name not in self._known:
            self._open.append(name)
            self._known[name] = self._first_time(named)
            self._open.pop()
        known = self._known[name]
        if known is None:
            raise Refusal("no-result", f"{name} could not be worked out", told=True)
        return known

    def _first_time(self, named: Named) -> Quantity | None:
        try:
            quantity = self.number(named.raw, named.kind)
            if named.kind == "plain" and (quantity.value < 0 or quantity.value % 1):
                raise Refusal(
                    "wrong-count", "a count must be a whole number", "give a whole number, or make it a length"
                )
        except Refusal as refusal:
            if not refusal.told:
                self.findings.append((named.path, refusal))
            return None
        return quantity

    def _loop(self, name: str) -> Refusal:
        ring = [*self._open[self._open.index(name) :], name]
        chain = tuple(f"{one} = {self._written(one)}" for one in ring[:-1])
        return Refusal(
            "formula-loop",
            f"{name} needs itself: {' -> '.join(ring)}",
            "give one of them a number of its own",
            chain=chain,
        )

    def _written(self, name: str) -> str:
        if name in self.named:
            return str(self.named[name].raw)
        part, _, what = name.rpartition(".")
        return str(self.parts[part].get(what))

    def _unknown(self, name: str) -> Refusal:
        if name in self.parts:
            hint = f"say which side or size of it, as in `{name}.top` or `{name}.width`"
            return Refusal("unknown-name", f"{name} is a part, and a number is needed here", hint)
        return Refusal(
            "unknown-name",
            f"nothing is called '{name}'",
            did_you_mean(name, self.named) or "name it under `lengths`, `angles` or `counts`",
        )

    def _members(self, raw: Any) -> list[tuple[str, str, Fraction]]:
        """Each formula of a field: the member of a pair it is ("" for a single one), its text, its unit in mm."""
        if isinstance(raw, str):
            return [("", raw, UNIT_MM[self.units])]
        if not isinstance(raw, dict):
            what = "nothing is written here" if raw is None else "a list cannot stand here"
            raise Refusal(
                "wrong-value", f"{what}; a number or a formula is needed", "write a number, a name or a formula"
            )
        if set(raw) != set(UNIT_MM) or not all(isinstance(text, str) for text in raw.values()):
            raise Refusal(
                "pair-incomplete",
                "a pair of values needs `inch` and `mm`, and nothing else",
                "write it as `{inch: 3/4, mm: 20}`",
            )
        return [(system, raw[system], UNIT_MM[system]) for system in UNIT_MM]

    def _checked(self, quantity: Quantity, kind: Kind, unit: Fraction) -> Quantity:
        """A bare result as the kind that is needed; refused when it is another kind."""
        if kind == "length":
            quantity = as_length(quantity, unit)
        elif kind == "angle":
            quantity = as_angle(quantity)
        if quantity.dimension != _DIMENSION[kind]:
            raise Refusal(
                "wrong-unit",
                f"{_NEEDED[kind]} is needed here, and this comes to {quantity.kind}",
                "check the units in the formula",
            )
        return quantity


@dataclass(frozen=True)
class _Lookup:
    """The scope as one field sees it: with the places of sides, or without."""

    scope: Scope
    places: bool

    def value(self, name: str) -> Quantity:
        return self.scope.value(name)

    def reference(self, part: str, what: str) -> Quantity:
        every = part.startswith("all ")
        name = part.removeprefix("all ")
        if name not in self.scope.parts:
            raise self.scope.unknown_part(name)
        if what in SIDES:
            if not self.places:
                message = f"where the {what} of {name} is, is found only when the piece is built"
                raise Refusal("not-measured-yet", message, "sides can stand in `where` and `cut to` only")
            return Quantity(Fraction(0), 1, 0, {(name, what, every): Fraction(1)})
        if what in SIZES and not every:
            return self.scope.size(name, what)
        known = SIDES if every else (*SIDES, *SIZES)
        hint = did_you_mean(what, known) or f"there are {listed(known)}"
        raise Refusal("unknown-name", f"a part has no '{what}'", hint)


def units_of(data: dict[str, Any]) -> System:
    """The units of a file; what is neither is told where it is read."""
    return "mm" if data.get("units") == "mm" else "inch"


def open_scope(data: dict[str, Any], system: System | None = None) -> Scope:
    """The scope of a file, its named values worked out; what is wrong with them is in `findings`."""
    units = units_of(data)
    scope = Scope(units, system or units)
    raw_parts = data.get("parts")
    for name, part in (raw_parts if isinstance(raw_parts, dict) else {}).items():
        scope.parts[name] = part if isinstance(part, dict) else {}
        if not PART_NAME.fullmatch(name) or name in RESERVED or name.startswith("all "):
            refusal = Refusal(
                "bad-name",
                f"a part cannot be called '{name}'",
                "use letters, digits and single blanks, beginning with a letter",
            )
            refusal.at_key = True
            scope.findings.append((("parts", name), refusal))
    for section, kind in SECTIONS.items():
        values = data.get(section)
        for name, raw in (values if isinstance(values, dict) else {}).items():
            _enter(scope, name, Named(raw, (section, name), kind))
    for name in list(scope.named):
        try:
            scope.value(name)
        except Refusal as refusal:
            assert refusal.told, "a named value keeps its own finding"
    return scope


def _enter(scope: Scope, name: str, named: Named) -> None:
    """Takes a name in, unless it cannot be used."""
    refusal: Refusal | None = None
    if not NAME.fullmatch(name):
        refusal = Refusal(
            "bad-name", f"'{name}' cannot be used in formulas", "use letters, digits and `_`, beginning with a letter"
        )
    elif name in RESERVED:
        refusal = Refusal("bad-name", f"'{name}' has a meaning of its own in formulas", "choose another name")
    elif name in scope.named or name in scope.parts:
        where = scope.named[name].path[0] if name in scope.named else "parts"
        refusal = Refusal("name-taken", f"'{name}' is taken already, under `{where}`", "choose another name")
    if refusal is not None:
        refusal.at_key = True
        scope.findings.append((named.path, refusal))
    if name not in scope.named:
        scope.named[name] = named
