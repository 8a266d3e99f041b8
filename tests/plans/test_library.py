"""The tables against the formulas they come from."""

from fractions import Fraction

import pytest

from plans.library import (
    all_species,
    metric_screw,
    rough_stock,
    rough_stocks,
    screw,
    screws,
    sheet,
    sheets,
    species,
)
from plans.units import INCH


def test_coefficients_follow_from_shrinkage() -> None:
    # C = S / (3000 - 20 S): Wood Handbook eq. 13-3 at 10 % moisture and a fibre saturation point of 30 %.
    # Both oaks carry group values ("commercial") in Table 13-5 and do not follow.
    for wood in all_species():
        if "oak" in wood.name:
            continue
        for shrinkage, coefficient in (
            (wood.shrink_radial, wood.coefficient_radial),
            (wood.shrink_tangential, wood.coefficient_tangential),
        ):
            assert shrinkage / (3000 - 20 * shrinkage) == pytest.approx(coefficient, abs=0.000011), wood.name


def test_densities() -> None:
    # kg/m³ at 12 %: density = 1000 G (1 + M/100), Wood Handbook ch. 4
    for name, density in {"black walnut": 616, "white oak": 762, "Yellow Poplar": 470, "douglas fir": 538}.items():
        wood = species(name)
        assert wood is not None
        assert wood.density() == pytest.approx(density, abs=0.7)


def test_woods_are_found_by_any_spelling_of_the_name() -> None:
    assert species("BLACK cherry") is species("Black cherry")
    assert species("Douglas-fir (coast)") is species("douglas-fir")
    assert species("oak") is None
    assert all(wood.source for wood in all_species())


def test_rough_stock_yields() -> None:
    # NHLA hardwood thicknesses surfaced two sides, inches
    yields = {
        "4/4": "13/16",
        "5/4": "17/16",
        "6/4": "21/16",
        "8/4": "7/4",
        "10/4": "9/4",
        "12/4": "11/4",
        "16/4": "15/4",
    }
    for name, surfaced in yields.items():
        stock = rough_stock(name)
        assert stock is not None
        assert stock.rough == pytest.approx(float(Fraction(name) * INCH))
        assert stock.surfaced == pytest.approx(float(Fraction(surfaced) * INCH))
    assert rough_stock("9/4") is None
    for system in ("inch", "mm"):
        thick = [stock.rough for stock in rough_stocks(system)]
        assert thick and thick == sorted(thick)


@pytest.mark.parametrize("stock", rough_stocks(), ids=lambda stock: stock.name)
def test_a_counterpart_yields_about_as_much(stock) -> None:
    """From 4/4 up what one asks for in its place is as thick within 15 %, and yields at most 1/16 in less of 4/4."""
    there = rough_stock(stock.counterpart)
    assert there is not None and there.system != stock.system
    assert 3 < stock.rough - stock.surfaced < 10  # what two planed faces cost (common practice)
    if stock.rough > 25:
        assert there.rough == pytest.approx(stock.rough, rel=0.15)
        assert there.surfaced > 0.93 * stock.surfaced


@pytest.mark.parametrize("one", sheets(), ids=lambda one: f"{one.name} {one.nominal}")
def test_the_counterpart_of_a_sheet_is_nearly_as_thick_and_the_way_back(one) -> None:
    """Within what plywood of one nominal thickness differs (1/32 in, common practice), MDF 3/4 in being 19 mm."""
    there = sheet(one.name, one.counterpart)
    assert there is not None and there.system != one.system and there.counterpart == one.nominal
    assert there.true == pytest.approx(one.true, abs=1.06)


def test_screw_diameters() -> None:
    # ASME B18.6.1: D = 0.060 + 0.013 N inches
    for one in screws():
        assert one.diameter == pytest.approx((0.060 + 0.013 * one.gauge) * 25.4)
    number_8 = screw(8)
    assert number_8 is not None
    assert number_8.diameter == pytest.approx(4.166, abs=0.001)
    assert number_8.metric_diameter == 4.0
    assert screw(11) is None


def test_holes_of_screws() -> None:
    # root 2/3 of the shank; pilot 90 % of it in hardwood, 70 % in softwood (Wood Handbook ch. 8), to the nearest drill
    for one in screws():
        for diameter, drills, step in (
            (one.diameter, one.drills, 25.4 / 64),
            (one.metric_diameter, one.metric_drills, 0.5),
        ):
            root = diameter * 2 / 3
            assert abs(drills.pilot_hard - 0.9 * root) <= step / 2 + 1e-9
            assert abs(drills.pilot_soft - 0.7 * root) <= step / 2 + 1e-9
            assert diameter <= drills.shank <= diameter + step + 1e-9
        assert one.head > one.diameter


def test_metric_screws() -> None:
    found = metric_screw(4.0)
    assert found is not None
    assert found.gauge == 8
    assert metric_screw(7.0) is None
