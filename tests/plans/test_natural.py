"""Natural sizes: what the trade calls by the other unit's numbers, and what holds for every length."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plans.formulas import evaluate
from plans.natural import DRIVEN, LONGER, SERIES, STEPS, TOLERANCE, RuleName, natural, spelled
from plans.quantities import Quantity
from plans.units import INCH, UNIT_MM, System

SYSTEMS: tuple[System, ...] = ("inch", "mm")
MADE = tuple(rule for rule in get_args(RuleName) if rule not in ("exact", "pair", "bought"))
systems = st.sampled_from(SYSTEMS)
# whatever a maker may write: sixty-fourths of an inch and tenths of a millimetre, up to 16 ft
lengths = st.one_of(
    st.integers(1, 64 * 192).map(lambda n: n * INCH / 64), st.integers(1, 50_000).map(lambda n: Fraction(n, 10))
)


def read(text: str) -> Fraction:
    class Nothing:
        def value(self, name: str) -> Quantity:
            raise AssertionError(name)

        def reference(self, part: str, what: str) -> Quantity:
            raise AssertionError(part)

    return Fraction(evaluate(text, Nothing(), Fraction(1)).value)


@pytest.mark.parametrize(
    ("rule", "written", "there"),
    [
        # NIST SP 811 (2008), B.7.2: 36 ft is 10.9728 m, and 11.0 m where it is rounded as well as it was known
        ("free", "36 ft", "11000 mm"),
        # what the trade calls the metric foot, and its fractions (common practice)
        *[
            ("free", "12 in", "300 mm"),
            ("free", "6 in", "150 mm"),
            ("free", "4 in", "100 mm"),
            ("free", "2 in", "50 mm"),
        ],
        *[("free", "1 in", "25 mm"), ("free", "4 ft", "1200 mm"), ("free", "6 ft", "1800 mm")],
        *[
            ("free", "300 mm", "12 in"),
            ("free", "25 mm", "1 in"),
            ("free", "450 mm", "18 in"),
            ("free", "50 mm", "2 in"),
        ],
        # planed boards: 3/4 in is made of 20 mm stuff (the brief's own pair), and the other way (common practice)
        *[("stock", "3/4 in", "20 mm"), ("stock", "20 mm", "3/4 in"), ("stock", "1 1/2 in", "38 mm")],
        # mortise chisels: 1/4, 5/16, 3/8, 1/2 in beside 6, 8, 10, 12 mm (common practice)
        *[
            ("tool", "1/4 in", "6 mm"),
            ("tool", "5/16 in", "8 mm"),
            ("tool", "3/8 in", "10 mm"),
            ("tool", "1/2 in", "12 mm"),
        ],
        *[("tool", "6 mm", "1/4 in"), ("tool", "8 mm", "5/16 in"), ("tool", "12 mm", "1/2 in")],
        *[("dowel", "3/8 in", "10 mm"), ("dowel", "8 mm", "5/16 in"), ("drill", "3/16 in", "5 mm")],
        # the shelf-pin row of 32 mm is bored 1 1/4 in apart where drills are in inches (common practice)
        ("free", "32 mm", "1 1/4 in"),
        *[("radius", "1/8 in", "3 mm"), ("radius", "1/4 in", "6 mm"), ("radius", "12 mm", "1/2 in")],
        # screws are sold by 5 mm and by 1/4 in; 1 1/2 in is bought as 35 mm, for 40 would come out (common practice)
        *[("screw", "1 3/4 in", "45 mm"), ("screw", "1 1/2 in", "35 mm"), ("screw", "25 mm", "1 in")],
        # a clearance is never smaller than declared
        *[("clearance", "1/16 in", "2 mm"), ("clearance", "1/32 in", "1 mm"), ("clearance", "1.5 mm", "1/16 in")],
        *[("clearance", "0.1 mm", "1/16 in"), ("exact", "3 1/2 in", "3 1/2 in")],
    ],
)
def test_what_the_trade_says(rule: RuleName, written: str, there: str) -> None:
    system: System = "mm" if there.endswith("mm") else "inch"
    assert natural(read(written), rule, system) == read(there)
    assert spelled(read(there), system) == there


@given(lengths, systems)
def test_a_free_length_stays_within_the_tolerance_or_half_a_fine_step(mm: Fraction, system: System) -> None:
    steps, unit = STEPS[system], UNIT_MM[system]
    there = natural(mm, "free", system)
    finest = (steps.finest if mm < steps.small * unit else steps.coarse[-1]) * unit
    # a rounded number may be so near a tidier one that it is rounded once more
    within = 2 * max(TOLERANCE * mm, finest / 2)
    assert there > 0 and (abs(there - mm) <= within or there == finest)
    assert (there / unit / steps.finest).denominator == 1


@given(lengths, systems, st.sampled_from(MADE))
def test_a_natural_size_stays_itself(mm: Fraction, system: System, rule: RuleName) -> None:
    there = natural(mm, rule, system)
    assert there > 0
    assert natural(there, rule, system) == there
    assert read(spelled(there, system)) == there


@given(lengths, systems)
def test_a_clearance_is_never_smaller_and_never_a_step_larger(mm: Fraction, system: System) -> None:
    step = STEPS[system].finest * UNIT_MM[system]
    assert mm <= natural(mm, "clearance", system) < mm + step


@given(lengths, systems, st.sampled_from([rule for rule in SERIES if rule not in DRIVEN]))
def test_of_a_series_none_is_nearer(mm: Fraction, system: System, rule: RuleName) -> None:
    unit = UNIT_MM[system]
    series = [one * unit for one in SERIES[rule][system]]
    there = natural(mm, rule, system)
    if mm <= series[-1]:
        assert there in series and abs(there - mm) == min(abs(one - mm) for one in series)


@given(lengths, systems, st.sampled_from(sorted(DRIVEN)))
def test_what_is_driven_comes_out_no_farther(mm: Fraction, system: System, rule: RuleName) -> None:
    shortest = SERIES[rule][system][0] * UNIT_MM[system]
    there = natural(mm, rule, system)
    if shortest <= mm <= SERIES[rule][system][-1] * UNIT_MM[system]:
        assert there <= mm + LONGER


@given(lengths, systems, lengths)
def test_stock_yields_what_is_asked_of_it(mm: Fraction, system: System, yields: Fraction) -> None:
    there = natural(mm, "stock", system, at_most=yields)
    series = [one * UNIT_MM[system] for one in SERIES["stock"][system]]
    if mm <= series[-1] and yields >= series[0]:
        assert there <= yields


@pytest.mark.parametrize("rule", SERIES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_series_rise(rule: RuleName, system: System) -> None:
    series = SERIES[rule][system]
    assert list(series) == sorted(set(series)) and series[0] > 0
    if system == "inch":  # fractions that are marked on a rule or stamped on a drill
        assert all(64 % one.denominator == 0 for one in series)
    else:
        assert all(2 % one.denominator == 0 for one in series)
    assert math.isfinite(float(series[-1]))
