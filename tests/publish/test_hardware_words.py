"""Hardware as one asks for it, and its counterpart in the other system."""

from dataclasses import replace

import pytest

from model.piece import Piece
from model.takeoff import HardwareRow, hardware
from plans.units import UnitSystem
from publish.edition import Edition
from publish.words.hardware import bought_words, counterpart
from publish.words.supplies import glue_times, supply_rows, volume_words


@pytest.fixture
def inch_edition(bench_piece: Piece) -> Edition:
    return Edition(bench_piece, (), None, bench_piece.design.units("inch"))  # type: ignore[arg-type]


@pytest.fixture
def mm_edition(inch_edition: Edition, bench_piece: Piece) -> Edition:
    return replace(inch_edition, units=bench_piece.design.units("mm"))


def test_a_counterpart_is_what_the_other_set_asks_for(inch_edition: Edition, mm_edition: Edition) -> None:
    for row in hardware(inch_edition.piece):
        there = bought_words(mm_edition, row)
        assert there.startswith(counterpart(inch_edition, row) + " ")
        assert bought_words(inch_edition, row).startswith(counterpart(mm_edition, row) + " ")


# 1 3/4 in is 44.45 mm and 1 1/2 in 38.1 mm: the lengths sold are 45 and 35 (a table of a screw trade, from memory)
@pytest.mark.parametrize(("long", "sold"), [(44.45, "45"), (38.1, "35"), (25.4, "25")])
def test_metric_lengths_are_those_sold(mm_edition: Edition, long: float, sold: str) -> None:
    row = HardwareRow("wood screw", 1, {"gauge": 8, "long": long})
    assert bought_words(mm_edition, row) == f"4 × {sold} mm wood screw, flat head"


def test_what_has_no_counterpart_says_so(inch_edition: Edition) -> None:
    dowel = HardwareRow("dowel", 4, {"diameter": 9.525, "long": 50.8})
    assert counterpart(inch_edition, dowel) == "none"
    assert counterpart(inch_edition, HardwareRow("shelf pin", 4, {"inch": "3/16 in", "mm": "none"})) == "none"
    biscuit = HardwareRow("biscuit", 8, {"size": "20"})  # by the same number everywhere (common practice)
    assert counterpart(inch_edition, biscuit) == "size 20"
    assert counterpart(inch_edition, HardwareRow("felt pad", 4, {})) == "as named"


def test_volumes_are_rounded_up() -> None:
    inch, mm = (Edition(None, (), None, UnitSystem(name, 1)) for name in ("inch", "mm"))  # type: ignore[arg-type]
    assert volume_words(inch, 29.6) == "2 fl oz"  # a US fluid ounce is 29.57 ml (NIST SP 811)
    assert volume_words(mm, 25.1) == "50 ml"


def test_times() -> None:
    assert glue_times(8, 240) == "Open about eight minutes, in clamps four hours, in a warm shop; go by its label."
    assert "label" in glue_times(None, None)


def test_every_supply_of_the_bench_is_listed(inch_edition: Edition) -> None:
    rows = {what: how_much for what, how_much, _ in supply_rows(inch_edition)}
    assert list(rows) == ["Plugs", "Waterproof wood glue (type I)", "Exterior oil", "Abrasive paper", "Masking tape"]
    assert rows["Plugs"] == "26, and 3 spare"
