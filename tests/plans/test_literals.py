"""The literal lengths of a formula: which numbers measure, and which only count."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from plans.formulas import evaluate
from plans.hard import rewritten
from plans.literals import Dimension, literals
from plans.number_kinds import Written
from plans.quantities import Quantity, Refusal, as_length
from plans.tree import Scalar
from plans.units import INCH, UNIT_MM, System
from plans.yaml_errors import Spot

NAMES: dict[str, tuple[Fraction, Dimension]] = {
    "board": (Fraction(381, 20), (1, 0)),
    "wide": (Fraction(500), (1, 0)),
    "splay": (Fraction(8), (0, 1)),
    "slats": (Fraction(5), (0, 0)),
}


def dimension(name: str) -> Dimension:
    return NAMES[name][1]


class Known:
    """The names above; a part is 100 mm this way, and its sides are at 0."""

    def value(self, name: str) -> Quantity:
        value, (length, angle) = NAMES[name]
        return Quantity(value, length, angle)

    def reference(self, part: str, what: str) -> Quantity:
        return Quantity(Fraction(100), 1)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("1 3/4", ["1 3/4"]),
        ("leg.left + 1/4", ["1/4"]),
        ("2 * (board + 1/4)", ["1/4"]),
        ("wide * 3/4", []),
        ("-(wide + board) / 2", []),
        ("wide - 2 * board", []),
        ("3' 6 1/2\"", ["3' 6 1/2\""]),
        ("19 mm + 1/2", ["19 mm", "1/2"]),
        ("slats * 5 1/2", ["5 1/2"]),
        ("max(board, 2)", ["2"]),
        ("min(2, 3)", ["2", "3"]),
        ("wide / board * 6", ["6"]),
        ("tan(8) * 3", ["3"]),
        ("tan(splay + 2) * wide", []),
        ("sqrt(wide * wide + board * board)", []),
        ("(wide - (slats - 1) * 1/8) / slats", ["1/8"]),
        ("-1/4", ["1/4"]),
        ("slats", [""]),  # so many inches
        ("(slats + 1) * slats", [""]),
    ],
)
def test_what_measures(text: str, found: list[str]) -> None:
    assert [text[one.start : one.end] for one in literals(text, dimension, "inch")] == found


def test_how_long_they_are() -> None:
    (feet,) = literals("3' 6 1/2\"", dimension, "mm")
    assert (feet.mm, feet.system, feet.bare) == (Fraction(85, 2) * INCH, "inch", False)
    (bare,) = literals("1 3/4", dimension, "inch")
    assert (bare.mm, bare.system, bare.bare) == (Fraction("44.45"), "inch", True)


numbers = st.sampled_from(["1", "2", "3/4", "1 1/2", "0.5", "1/3", "19 mm", "1 3/4 in", "6 in", "3 ft 2 in", "8 deg"])
atoms = st.one_of(numbers, st.sampled_from([*NAMES, "leg.width"]))


def _grown(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    two = st.tuples(inner, st.sampled_from([" + ", " - ", " * ", " / "]), inner).map("".join)
    called = st.tuples(st.sampled_from(["max", "min"]), inner, inner).map(lambda it: f"{it[0]}({it[1]}, {it[2]})")
    return st.one_of(two, inner.map(lambda it: f"({it})"), inner.map(lambda it: f"-({it})"), called)


formulas = st.recursive(atoms, _grown, max_leaves=8)


def length(text: str, system: System) -> Fraction | float:
    unit = UNIT_MM[system]
    quantity = as_length(evaluate(text, Known(), unit), unit)
    if quantity.dimension != (1, 0):
        raise Refusal("wrong-unit", "no length")
    return quantity.value


@given(formulas, st.sampled_from(["inch", "mm"]))
def test_with_its_lengths_as_they_are_a_formula_comes_to_what_it_came_to(text: str, units: System) -> None:
    """Where every literal is kept exactly, only spelled with its unit, the other units change nothing."""
    there: System = "mm" if units == "inch" else "inch"
    try:
        before = length(text, units)
    except Refusal:
        assume(False)
    every = {name: of for name, (_, of) in NAMES.items()}
    found = rewritten(Written((), Scalar(Spot(1, 1), text), "exact"), text, every, units, there)
    now, told = found if found is not None else (text, [])
    assert told == []
    assert float(length(now, there)) == pytest.approx(float(before), rel=1e-9, abs=1e-9)
