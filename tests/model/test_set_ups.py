"""Set-ups against what the designs say and against plane geometry; every use of a tool is in one of them."""

import math
from collections import Counter

import pytest

from model.cut_list import cut_list
from model.piece import Piece
from model.set_ups import SETTINGS, SetUp, set_ups
from model.works import WORKS

INCH = 25.4


def of_kind(piece: Piece, kind: str) -> list[SetUp]:
    return [one for one in set_ups(piece) if one.setting.kind == kind]


def test_every_operation_has_its_settings_or_is_known_to_have_none() -> None:
    assert set(SETTINGS) >= {name for work in WORKS for name in work.operations}


def test_holes_add_up_to_the_screws_of_the_piece(bench) -> None:
    """A screw goes through one clear hole and into one pilot, so that there are as many of each as screws."""
    screws = sum(len(fixing.points) for fixing in bench.fixings)
    through = Counter[float]()
    for one in of_kind(bench, "bore"):
        through[round(float(str(one.setting.first)) / INCH, 4)] += one.cuts
    plugged = 26  # of 32 screws, as the design counts them
    # No. 8: 11/64 in clear, 3/32 in pilot in a hardwood (screw table of a woodworking handbook), 3/8 in plug
    assert through == {round(11 / 64, 4): screws, round(3 / 32, 4): screws, 0.375: plugged}
    assert sum(one.cuts for one in of_kind(bench, "countersink")) == screws - plugged


def test_a_tenon_for_every_mortise(bench) -> None:
    assert sum(one.cuts for one in of_kind(bench, "tenon")) == sum(one.cuts for one in of_kind(bench, "mortise")) == 14
    assert {round(float(str(one.setting.first)) / INCH * 16) for one in of_kind(bench, "tenon")} == {5}


def test_a_taper_falls_by_what_comes_off(bench) -> None:
    """The foot is 1 1/8 of 1 3/4 in, the taper begins 4 in below the top: two sides of each of four legs."""
    (first, second) = of_kind(bench, "taper")
    assert first.cuts + second.cuts == 8
    for one in (first, second):
        run = one.setting.then[0]
        assert one.setting.first == pytest.approx((1.75 - 1.125) * INCH)
        leg = bench.parts[one.item.shown]
        assert run == pytest.approx(leg.over_all[0] - 4 * INCH)


def test_the_blade_is_tilted_as_the_ends_lean(bench) -> None:
    """With an angle a seen on the face and b seen on the edge, the mitre is a, and tan tilt = tan b cos a: plane
    geometry, as behind every table of compound mitres."""
    legs = [one for one in of_kind(bench, "tilt") if one.item.name == "leg"]
    assert sum(one.cuts for one in legs) == 8  # two ends of four legs
    for one in legs:
        tilt, mitre = float(str(one.setting.first)), float(str(one.setting.then[0]))
        assert mitre == pytest.approx(6.0, abs=0.1)
        assert tilt == pytest.approx(math.degrees(math.atan(math.tan(math.radians(8)) * math.cos(math.radians(mitre)))))


def test_every_line_of_the_cut_list_is_planed_ripped_and_crosscut(bench) -> None:
    for kind in ("plane", "rip"):
        assert sorted(one.mark for one in of_kind(bench, kind)) == sorted(row.mark for row in cut_list(bench))
    crosscut = {one.mark for one in of_kind(bench, "crosscut")}
    angled = {one.mark for one in of_kind(bench, "tilt") if one.setting.then[0] != "edge"}
    assert crosscut | angled == {row.mark for row in cut_list(bench)} and not crosscut & angled


def test_what_is_bought_to_size_is_not_planed_or_ripped(built) -> None:
    piece = built("""parts:
  stud:
    {wood: ponderosa pine, stock: 2x4, runs: left-right, thick: up-down, length: 950, width: 3 1/2 in,
     thickness: 1 1/2 in, where: {bottom: floor, centred: [left-right, front-back]}}
""")
    assert [(one.setting.kind, one.cuts) for one in set_ups(piece)] == [("crosscut", 1)]
