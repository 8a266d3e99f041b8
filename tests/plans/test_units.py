"""Lengths against exact rational arithmetic; 1 in = 25.4 mm exactly (ISO 31-1 / international inch, 1959)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plans.units import (
    FRACTION_SLASH,
    INCH,
    UnitSystem,
    degrees,
    half_away,
    inches,
    millimetres,
    printed_value,
    read_number,
    shown,
    snapped,
)

INCH_STEPS = [Fraction(1, n) for n in (8, 16, 32, 64)]
MM_STEPS = [Fraction(1, 2), Fraction(1)]
steps = st.sampled_from(INCH_STEPS)
mm_steps = st.sampled_from(MM_STEPS)
lengths = st.floats(-20_000, 20_000, allow_nan=False)


def read_back(text: str) -> Fraction:
    """What a reader with a rule makes of printed inches."""
    sign = -1 if text.startswith("-") else 1
    return sign * sum(
        (Fraction(piece.replace(FRACTION_SLASH, "/")) for piece in text.lstrip("-").split(" ")), Fraction(0)
    )


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1 3/4", Fraction(7, 4)),
        ("3/4", Fraction(3, 4)),
        ("48", Fraction(48)),
        ("0.5", Fraction(1, 2)),
        (".5", Fraction(1, 2)),
        ("½", Fraction(1, 2)),
        ("1½", Fraction(3, 2)),
        ("17 ⅝", Fraction(141, 8)),
        ("1 3⁄4", Fraction(7, 4)),
        ("0.1", Fraction(1, 10)),
    ],
)
def test_numbers_are_read_exactly(text: str, value: Fraction) -> None:
    assert read_number(text) == value


@pytest.mark.parametrize(
    ("mm", "step", "text"),
    [
        (44.45, Fraction(1, 16), "1 3⁄4"),
        (23.8125, Fraction(1, 16), "15⁄16"),
        (0.0, Fraction(1, 16), "0"),
        (50.8, Fraction(1, 16), "2"),
        # 15 31.9/32 in carries to 16: rules.md, D
        (float((15 + Fraction(319, 320)) * INCH), Fraction(1, 32), "16"),
        (12.7, Fraction(1, 64), "1⁄2"),
        (-19.05, Fraction(1, 16), "-3⁄4"),
        (0.1, Fraction(1, 16), "0"),
        (-0.1, Fraction(1, 16), "0"),
    ],
)
def test_inches_print_as_reduced_fractions(mm: float, step: Fraction, text: str) -> None:
    assert inches(mm, step) == text


@pytest.mark.parametrize(
    ("mm", "step", "text"),
    [
        (44.45, Fraction(1, 2), "44.5"),
        (19.0, Fraction(1, 2), "19"),
        (19.2, Fraction(1), "19"),
        (-0.2, Fraction(1), "0"),
    ],
)
def test_millimetres_have_no_empty_decimals(mm: float, step: Fraction, text: str) -> None:
    assert millimetres(mm, step) == text


@pytest.mark.parametrize(
    ("angle", "text"), [(8.0, "8°"), (7.5, "7.5°"), (7.96, "8°"), (7.949999, "7.9°"), (-3.25, "-3.3°"), (0.04, "0°")]
)
def test_degrees(angle: float, text: str) -> None:
    assert degrees(angle) == text


def test_degrees_to_the_half() -> None:
    assert degrees(7.3, Fraction(1, 2)) == "7.5°"


@given(lengths, steps)
def test_printed_inches_are_the_nearest_step(mm: float, step: Fraction) -> None:
    printed = read_back(inches(mm, step))
    assert printed % step == 0
    assert abs(printed * INCH - snapped(mm)) <= step * INCH / 2
    assert printed * INCH == printed_value(mm, step * INCH)


@given(st.integers(-10_000, 10_000), steps)
def test_fractions_are_reduced_and_less_than_one(count: int, step: Fraction) -> None:
    last = inches(count * step * INCH, step).lstrip("-").split(" ")[-1]
    if FRACTION_SLASH in last:
        top, bottom = map(int, last.split(FRACTION_SLASH))
        assert Fraction(top, bottom).denominator == bottom
        assert 0 < top < bottom


@given(lengths, mm_steps)
def test_printed_millimetres_are_the_nearest_step(mm: float, step: Fraction) -> None:
    printed = Fraction(millimetres(mm, step))
    assert printed % step == 0
    assert abs(printed - snapped(mm)) <= step / 2


@given(st.integers(-5000, 5000), st.sampled_from([*INCH_STEPS, *MM_STEPS]))
def test_a_half_goes_away_from_zero(count: int, step: Fraction) -> None:
    tie = (count + Fraction(1, 2)) * step
    assert half_away(tie / step) == (count + 1 if tie > 0 else count)


@given(st.integers(-40_000, 40_000), steps)
def test_float_noise_never_changes_a_print(count: int, step: Fraction) -> None:
    # half a step is where noise would show; 1e-9 mm is what solids give away
    exact = (count + Fraction(1, 2)) * step * INCH
    nearby = {inches(float(exact) + noise, step) for noise in (-1e-9, 0.0, 1e-9)}
    assert nearby == {inches(float(exact), step)}


@given(
    st.floats(0, 5000),
    st.sampled_from([UnitSystem("inch", s) for s in INCH_STEPS] + [UnitSystem("mm", s) for s in MM_STEPS]),
)
def test_clearances_never_shrink(mm: float, units: UnitSystem) -> None:
    assert units.ceil(mm) >= float(snapped(mm)) - 1e-9
    assert units.floor(mm) <= float(snapped(mm)) + 1e-9
    assert units.ceil(mm) - units.floor(mm) <= float(units.step_mm) + 1e-9
    assert units.round(mm) in (units.floor(mm), units.ceil(mm))


def test_unit_systems_print_the_number_only() -> None:
    inch, mm = UnitSystem("inch", Fraction(1, 16)), UnitSystem("mm", Fraction(1, 2))
    assert (inch.length(44.45), inch.suffix) == ("1 3⁄4", "in")
    assert (mm.length(44.45), mm.suffix) == ("44.5", "mm")
    assert inch.round(44.0) == pytest.approx(1.75 * 25.4)
    assert shown(44.45, "inch") == "1 3⁄4 in"
    assert shown(44.45, "mm") == "44.45 mm"
