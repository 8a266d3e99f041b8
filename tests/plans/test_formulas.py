"""Formulas against Python's own exact fractions."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plans.formulas import evaluate
from plans.quantities import Quantity, Refusal
from plans.units import INCH

VALUES = {
    "board": Quantity(Fraction(3, 4) * INCH, 1),
    "splay": Quantity(Fraction(8), 0, 1),
    "slats": Quantity(Fraction(5)),
}


class Names:
    """A few named values, and sides of any part."""

    def value(self, name: str) -> Quantity:
        if name not in VALUES:
            raise Refusal("unknown-name", name)
        return VALUES[name]

    def reference(self, part: str, what: str) -> Quantity:
        every = part.startswith("all ")
        return Quantity(Fraction(0), 1, 0, {(part.removeprefix("all "), what, every): Fraction(1)})


def worked(text: str, unit: Fraction = INCH) -> Quantity:
    return evaluate(text, Names(), unit)


def refused(text: str) -> Refusal:
    with pytest.raises(Refusal) as caught:
        worked(text)
    return caught.value


# lengths in inches
@pytest.mark.parametrize(
    ("text", "inch"),
    [
        ("1 3/4 in", Fraction(7, 4)),
        ('1 3/4"', Fraction(7, 4)),
        ("3' 6 1/2\"", Fraction(85, 2)),
        ("3 ft 6 in", Fraction(42)),
        ("3'", Fraction(36)),
        ("19 mm", Fraction(190, 254)),
        ("½ in", Fraction(1, 2)),
        ("1 in + 2", Fraction(3)),
        ("2 + 1 in", Fraction(3)),
        ("2 * board", Fraction(3, 2)),
        ("board / 2 - 1/8", Fraction(1, 4)),
        ("-board", Fraction(-3, 4)),
        ("--board", Fraction(3, 4)),
        ("1 - -board", Fraction(7, 4)),
        ("(slats - 1) * board", Fraction(3)),
        ("min(board, 1/2)", Fraction(1, 2)),
        ("max(1/4, board, 12 mm)", Fraction(3, 4)),
        ("sqrt(board * board)", Fraction(3, 4)),
        ("board * board / (2 * board)", Fraction(3, 8)),
        ("1 1/2 in / (3/4)", Fraction(2)),
        ("25.4 mm", Fraction(1)),
        ("2 × 3 in − 1", Fraction(5)),
    ],
)
def test_lengths_are_exact(text: str, inch: Fraction) -> None:
    result = worked(text)
    assert result.dimension == (1, 0)
    assert result.value == inch * INCH
    assert isinstance(result.value, Fraction)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1 3/4", Fraction(7, 4)),
        ("2 * 3/4", Fraction(3, 2)),
        ("3/4/2", Fraction(3, 8)),
        ("10 / 4 / 5", Fraction(1, 2)),
        ("2 + 3 * 4", Fraction(14)),
        ("10 - 3 - 2", Fraction(5)),
        ("board / board", Fraction(1)),
        ("sqrt(9/16)", Fraction(3, 4)),
    ],
)
def test_plain_numbers_stay_plain(text: str, value: Fraction) -> None:
    result = worked(text)
    assert result.is_plain
    assert result.value == value


def test_angles() -> None:
    assert worked("splay + 1/2") == Quantity(Fraction(17, 2), 0, 1)
    assert worked("8 deg") == worked("8°") == Quantity(Fraction(8), 0, 1)
    for text, value in {
        "sin(30)": 0.5,
        "cos(60 deg)": 0.5,
        "tan(45)": 1.0,
        "sin(splay)": math.sin(math.radians(8)),
    }.items():
        assert worked(text).value == pytest.approx(value, abs=1e-12)


def test_the_unit_of_bare_lengths_is_the_designs() -> None:
    assert worked("board + 1", Fraction(1)).value == Fraction(3, 4) * INCH + 1


def test_sides_add_up_to_a_place() -> None:
    place = worked("(seat slat.left + all shelf bearer.right) / 2 + 4")
    half = Fraction(1, 2)
    assert place.terms == {("seat slat", "left", False): half, ("shelf bearer", "right", True): half}
    assert place.value == 4 * INCH
    assert worked("leg.left - leg.left + 1").terms == {}


@pytest.mark.parametrize(
    ("text", "code", "offset"),
    [
        ("board + splay", "wrong-unit", 6),
        ("sin(board)", "wrong-unit", 0),
        ("1 + sqrt(board)", "wrong-unit", 4),
        ("2 * leg.left * board", "wrong-unit", 13),
        ("1 / leg.left", "wrong-unit", 2),
        ("max(1, leg.left)", "not-measured-yet", 0),
        ("1 / 0", "no-result", 2),
        ("1 + 3/0", "no-result", 4),
        ("sqrt(0 - 4)", "no-result", 0),
        ("2 + nothing", "unknown-name", 4),
        ("2 + mix(3)", "unknown-function", 4),
        ("10,5", "decimal-comma", 2),
        ("25 cm", "unknown-unit", 3),
        ("2 + 1-3/4", "two-readings", 4),
        ("board / 3/4", "two-readings", 8),
        ("board / -3/4", "two-readings", 9),
        ("board / -(1) / 3/4", "two-readings", 15),
        ("2 (3)", "formula-syntax", 2),
        ("2 board", "formula-syntax", 2),
        ("2 ** 3", "formula-syntax", 3),
        ("2 ^ 3", "formula-syntax", 2),
        ("2 + $", "formula-syntax", 4),
        ("1 + (2 + 3", "formula-syntax", 4),
        ("3' 6", "formula-syntax", 3),
        ("", "formula-syntax", 0),
        ("sin(1, 2)", "formula-syntax", 0),
        ("1" * 20, "number-too-large", 0),
        ("1000000000 * 1000000000", "number-too-large", 11),
        ("tan(90)", "number-too-large", 0),
        ("1 +" * 200 + "1", "formula-too-long", 0),
        ("(" * 31 + "1" + ")" * 31, "formula-too-long", 30),
    ],
)
def test_refusals_point_at_the_spot(text: str, code: str, offset: int) -> None:
    refusal = refused(text)
    assert (refusal.code, refusal.offset) == (code, offset)
    assert refusal.message


def test_no_code_runs_from_a_formula() -> None:
    for text in ("__import__('os')", "().__class__", "board.__class__.mro", "lambda: 1", "[1]", "1 if 1 else 2"):
        try:
            assert worked(text).terms, text
        except Refusal:
            continue


# sums of products of fractions, as text and as Python's Fractions
numbers = st.fractions(0, 100, max_denominator=64)


def written(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if rest and whole:
        return f"{whole} {rest.numerator}/{rest.denominator}"
    return f"{value.numerator}/{value.denominator}" if rest else str(whole)


expressions = st.recursive(
    numbers.map(lambda value: (written(value), value)),
    lambda inner: st.tuples(inner, st.sampled_from("+-*"), inner).map(
        lambda t: (
            f"({t[0][0]}) {t[1]} ({t[2][0]})",
            {"+": t[0][1] + t[2][1], "-": t[0][1] - t[2][1], "*": t[0][1] * t[2][1]}[t[1]],
        )
    ),
    max_leaves=5,
)


@given(expressions)
def test_formulas_agree_with_exact_fractions(expression: tuple[str, Fraction]) -> None:
    text, value = expression
    assert worked(text).value == value


@given(st.lists(st.tuples(st.sampled_from(["+", "-"]), numbers), min_size=1, max_size=6))
def test_sums_are_worked_from_the_left(terms: list[tuple[str, Fraction]]) -> None:
    text = "0 in " + " ".join(f"{sign} {written(value)}" for sign, value in terms)
    total = sum((value if sign == "+" else -value for sign, value in terms), Fraction(0))
    assert worked(text).value == total * INCH


@given(st.text("0123456789 +-*/().,'\"½abinftmdeg_", max_size=60))
def test_any_text_is_worked_out_or_refused(text: str) -> None:
    try:
        worked(text)
    except Refusal as refusal:
        assert 0 <= refusal.offset <= len(text)
