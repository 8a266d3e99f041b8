"""The tables of hardware: every row has a source, both systems or `none`, and sizes that can be right."""

import pytest

from plans.fixings import SIZE_TABLES
from plans.library import bought, hardware, sizes_of

TABLES = sorted({*SIZE_TABLES.values(), "top_fasteners"})


@pytest.mark.parametrize("table", TABLES)
def test_rows_are_whole(table):
    assert hardware(table)
    for by_inch, by_mm in hardware(table):
        assert len(by_inch.source) > 10 and {by_inch.inch, by_inch.mm} != {"none"}
        assert set(by_inch.sizes) == set(by_mm.sizes)
        for size, value in by_inch.sizes.items():
            # a counterpart is the nearest that is sold, not another thing: bars are drilled at 76.2 or 96 mm
            assert value >= 0 and by_mm[size] == pytest.approx(value, rel=0.27, abs=2.5), (table, by_inch.inch, size)
    names = [name.lower().replace(" ", "") for name in sizes_of(table)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("table", TABLES)
def test_every_size_is_found_as_it_is_written(table):
    for name in sizes_of(table):
        one = bought(table, name.upper().replace("×", "x"))
        assert one is not None and name in (one.inch, one.mm)
    assert bought(table, "none") is None


def test_a_size_sold_in_inches_only_keeps_its_sizes():
    one = bought("shelf_pins", "3/16 in")
    assert one is not None and one.mm == "none" and one["diameter"] == pytest.approx(25.4 * 3 / 16)
