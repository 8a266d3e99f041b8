"""Spares, glue, finish and paper by hand, from the tables' own figures."""

import pytest

from model.supplies import abrasive_sheets, finish_need, glue_need, over, spares
from model.takeoff import HardwareRow, hardware
from plans.library.supplies import adhesive, adhesive_table, finish_cover, finish_table

BOX = """parts:
  base: {wood: white oak, runs: left-right, thick: up-down, length: 1000, width: 500, thickness: 20,
    where: {bottom: floor, centred: [left-right, front-back]}}
  cleat: {wood: white oak, runs: left-right, thick: up-down, length: 500, width: 100, thickness: 30,
    where: {bottom: base.top, left: -500, centred: front-back}, mirror: left-right}
joints:
  - glued face: {of: cleat, to: base, count: 2}
"""


@pytest.mark.parametrize(("count", "share", "least", "more"), [(26, 0.1, 2, 3), (6, 0.1, 2, 2), (30, 0.1, 2, 3)])
def test_a_tenth_over_and_never_fewer_than_the_least(count, share, least, more) -> None:
    assert over(count, share, least) == more


def test_only_small_things_have_spares() -> None:
    assert spares(HardwareRow("wood screw", 40, {})) == 4
    assert spares(HardwareRow("butt hinge", 2, {})) == 0


def test_glue_by_the_area_of_the_joints(built) -> None:
    """0.1 m2 of joints at 180 g/m2 and half as much again, 1.1 g to the ml: 24.5 ml."""
    need = glue_need(built(BOX + "glue: wood glue\n"))
    assert need is not None and need.area == pytest.approx(2 * 500 * 100)
    assert need.millilitres == pytest.approx(0.1 * 180 / 1.1 * 1.5)
    assert (need.opening, need.clamping) == (8, 45)
    unknown = glue_need(built(BOX + "glue: moon paste\n"))
    assert unknown is not None and unknown.millilitres is None
    assert glue_need(built(BOX)) is None


def test_finish_by_the_surface_and_the_coats(built) -> None:
    """A base of 2 (1 x 0.5 + 0.5 x 0.02 + 1 x 0.02) and two cleats of 2 (0.5 x 0.1 + 0.1 x 0.03 + 0.5 x 0.03) m2."""
    area = 2 * (0.5 + 0.01 + 0.02) + 2 * 2 * (0.05 + 0.003 + 0.015)
    need = finish_need(built(BOX + "finish: {name: shellac, coats: 3}\n"))
    assert need is not None and need.area == pytest.approx(area * 1e6)
    assert need.millilitres == pytest.approx(area * 3 / 12 * 1000)
    assert abrasive_sheets(built(BOX)) == 1  # 1.3 m2 at 1.5 a sheet


def test_names_are_found_in_the_tables() -> None:
    assert {one.word for one in adhesive_table()} == {adhesive(one.word).word for one in adhesive_table()}  # type: ignore[union-attr]
    known = adhesive("waterproof wood glue (type I)")
    assert known is not None and known.word == "type I"
    cover = finish_cover("hard-wax oil")
    assert cover is not None and cover.word == "wax"
    assert all(one.source for one in (*adhesive_table(), *finish_table()))


def test_what_a_screw_is_made_of_is_bought_by_itself(built) -> None:
    """Two sorts of one size are two lines."""
    text = BOX.replace("joints:\n  - glued face: {of: cleat, to: base, count: 2}\n", "")
    piece = built(
        text
        + """fixings:
  - wood screw: {through: cleat, into: base, gauge: 8, long: 45, per place: 3, count: 6, finish: brass}
"""
    )
    (row,) = hardware(piece)
    assert (row.what, row.count, row.finish) == ("wood screw", 6, "brass")
