"""Tables and rules of the trade against figures published outside the project; the source stands by each."""

from fractions import Fraction

import pytest

from plans.library import bought, dressed, dressed_sizes, rough_stock, screws
from plans.units import INCH


def inches(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split()) * INCH)


# American Softwood Lumber Standard PS 20, Table 3, minimum dressed dry sizes (read in a copy of the table)
PS20_THICK = {"1": "3/4", "2": "1 1/2", "4": "3 1/2"}
PS20_WIDE = {"2": "1 1/2", "3": "2 1/2", "4": "3 1/2", "6": "5 1/2", "8": "7 1/4", "10": "9 1/4", "12": "11 1/4"}


def test_dressed_softwood():
    assert {"1x4", "2x4", "4x4", "2x12"} <= {one.name for one in dressed_sizes()}
    for one in dressed_sizes():
        thick, wide = one.name.split("x")
        assert one.thickness == pytest.approx(inches(PS20_THICK[thick]))
        assert one.width == pytest.approx(inches(PS20_WIDE[wide]))
        assert one.nominal == pytest.approx((float(thick) * 25.4, float(wide) * 25.4))
    assert dressed("2 × 4") is dressed("2x4") and dressed("4/4") is None and dressed(None) is None


# NHLA hardwood, rough and surfaced two sides, inches (read in a second-hand chart; 10/4 from memory)
@pytest.mark.parametrize(
    ("name", "surfaced"),
    [
        *[("3/8", "3/16"), ("1/2", "5/16"), ("5/8", "7/16"), ("3/4", "9/16"), ("4/4", "13/16"), ("5/4", "1 1/16")],
        *[("6/4", "1 5/16"), ("7/4", "1 1/2"), ("8/4", "1 3/4"), ("10/4", "2 1/4"), ("12/4", "2 3/4")],
        *[("14/4", "3 1/4"), ("16/4", "3 3/4")],
    ],
)
def test_hardwood_by_the_quarter(name, surfaced):
    stock = rough_stock(name)
    assert stock is not None
    # thickness is rough; a quarter is of an inch
    assert (stock.rough, stock.surfaced) == pytest.approx((float(Fraction(name)) * 25.4, inches(surfaced)))


# UNC major diameters, ASME B1.1: gauge sizes by 0.060 + 0.013 N in, fractions as named; ISO 261 coarse by the name
# (both from memory)
@pytest.mark.parametrize(
    ("unc", "major", "iso"),
    [
        *[("8-32", 0.164, "M4"), ("10-24", 0.190, "M5"), ("1/4-20", 0.25, "M6"), ("5/16-18", 0.3125, "M8")],
        ("3/8-16", 0.375, "M10"),
    ],
)
def test_threads(unc, major, iso):
    inch, metric = bought("threads", unc), bought("threads", iso)
    assert inch is not None and metric is not None and (inch.inch, inch.mm) == (unc, iso)
    assert inch["diameter"] == pytest.approx(major * 25.4) and metric["diameter"] == float(iso[1:])
    for one in (inch, metric):
        # a clear hole clears, and the insert has a wall round its thread
        assert one["diameter"] < one["clear"] < one["insert"] < 2.2 * one["diameter"]


# ISO 273 medium clearance holes (from memory)
@pytest.mark.parametrize(("iso", "hole"), [("M4", 4.5), ("M5", 5.5), ("M6", 6.6), ("M8", 9.0), ("M10", 11.0)])
def test_metric_clear_holes(iso, hole):
    one = bought("threads", iso)
    assert one is not None and one["clear"] == hole


# ASME B18.6.1-1981: D = 0.060 + 0.013 N in; the anchors of the formula were read: No. 10 is 0.190 in
def test_wood_screws_by_gauge():
    assert {one.gauge: round(one.diameter / 25.4, 3) for one in screws()} == {
        **{2: 0.086, 4: 0.112, 5: 0.125, 6: 0.138, 7: 0.151, 8: 0.164, 9: 0.177, 10: 0.190, 12: 0.216, 14: 0.242}
    }


# Wood Handbook ch. 8 (from memory): pilots of 90 % of the root in hardwood and 70 % in softwood; so never above the
# root, two thirds of the shank (common practice), by more than half a drill
def test_pilots_by_hardness():
    for one in screws():
        for drills, diameter, step in (
            (one.drills, one.diameter, 25.4 / 64),
            (one.metric_drills, one.metric_diameter, 0.5),
        ):
            assert drills.pilot_soft <= drills.pilot_hard <= diameter * 2 / 3 + step / 2 < drills.shank
