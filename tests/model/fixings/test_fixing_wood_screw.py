"""Wood screws: where they stand, and what is bored for them, against cylinders and a cone of 90 degrees."""

import math

import numpy as np
import pytest

from model.checks import check_fit
from model.piece import Piece
from plans.library import screw
from plans.library.screws import Screw
from plans.problems import has_errors

# in these tests: a screw of 4 mm, head 8 mm, shank hole 4.5 mm, pilot 2.5 mm in hardwood (plans/library/screws.csv)
PAIR = """parts:
  base:
    {wood: WOOD, runs: left-right, thick: up-down, length: 300, width: 100, thickness: 40,
     where: {bottom: floor, centred: [left-right, front-back]}}
  cleat:
    {wood: white oak, runs: left-right, thick: up-down, length: 120, width: 40, thickness: 20,
     where: {bottom: base.top, centred: [left-right, front-back]}}
fixings:
  - wood screw: {through: cleat, into: base, diameter: 4, MORE}
"""


def screwed(built, more: str = "long: 45", wood: str = "white oak"):
    return built(PAIR.replace("MORE", more).replace("WOOD", wood))


def drills(piece: Piece) -> Screw:
    """The screw of the table that was driven."""
    found = screw(int(str(piece.fixings[0].values["gauge"])))
    assert found is not None and found.metric_diameter == 4
    return found


def cylinder(diameter: float, deep: float) -> float:
    return math.pi * diameter**2 / 4 * deep


def test_clear_hole_countersink_and_pilot(built):
    piece = screwed(built)
    known = drills(piece)
    head, shank = known.metric_head / 2, known.metric_drills.shank / 2
    # a cone of 90 degrees is as deep as it is wide; the shank hole takes over where it is as wide
    cone = math.pi / 3 * (head**3 - shank**3) + cylinder(2 * shank, 20 - (head - shank))
    assert 120 * 40 * 20 - piece.parts["cleat"].sharp.Volume() == pytest.approx(cone, rel=1e-6)
    pilot = cylinder(known.metric_drills.pilot_hard, 45 - 20)
    assert 300 * 100 * 40 - piece.parts["base"].sharp.Volume() == pytest.approx(pilot, rel=1e-6)


def test_softwood_takes_a_smaller_pilot(built):
    piece = screwed(built, wood="Eastern white pine")
    pilot = cylinder(drills(piece).metric_drills.pilot_soft, 45 - 20)
    assert 300 * 100 * 40 - piece.parts["base"].sharp.Volume() == pytest.approx(pilot, rel=1e-6)


def test_plugged_head_lets_the_screw_reach_deeper(built):
    piece = screwed(built, "long: 45, plugged: 6")
    known = drills(piece)
    plug = math.ceil(known.metric_head / 2) * 2  # plugs come in steps of 2 mm (common practice)
    lost = cylinder(plug, 6) + cylinder(known.metric_drills.shank, 20 - 6)
    assert 120 * 40 * 20 - piece.parts["cleat"].sharp.Volume() == pytest.approx(lost, rel=1e-6)
    pilot = cylinder(known.metric_drills.pilot_hard, 45 - (20 - 6))
    assert 300 * 100 * 40 - piece.parts["base"].sharp.Volume() == pytest.approx(pilot, rel=1e-6)


@pytest.mark.parametrize(("count", "places"), [(1, [0]), (2, [-30, 30]), (3, [-40, 0, 40])])
def test_screws_share_out_the_strip(built, count, places):
    piece = screwed(built, f"long: 45, per place: {count}, count: {count}")
    (fixing,) = piece.fixings
    points = np.array(sorted(fixing.points))
    assert points[:, 0] == pytest.approx(places)
    assert points[:, 1] == pytest.approx(np.zeros(count)) and points[:, 2] == pytest.approx(np.full(count, 60.0))
    assert fixing.direction == pytest.approx((0, 0, -1))


def test_metric_screw_has_a_length_of_its_own(built):
    (fixing,) = screwed(built, "long: 45").fixings
    assert fixing.values["diameter"] == 4 and fixing.values["long"] == 45 and fixing.values["plugged"] is None


def test_gauge_is_the_inch_screw(built):
    piece = built(PAIR.replace("diameter: 4, MORE", "gauge: 8, long: 45").replace("WOOD", "white oak"))
    # D = 0.060 + 0.013 N in (ASME B18.6.1)
    assert piece.fixings[0].values["diameter"] == pytest.approx((0.060 + 0.013 * 8) * 25.4)


def test_plug_right_through(outcome):
    piece, problems = outcome(PAIR.replace("MORE", "long: 45, plugged: 20").replace("WOOD", "white oak"))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]


def test_strip_too_narrow_for_a_screw(outcome):
    text = PAIR.replace("MORE", "long: 45").replace("WOOD", "white oak").replace("width: 40", "width: 14")
    piece, problems = outcome(text)
    # four diameters are the least (common practice): 16 mm here
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("fixing-not-found", 14)]


def test_slot_for_the_wood_to_move(built):
    piece = screwed(built, "long: 45, slotted: front-back, play: 3")
    shank = drills(piece).metric_drills.shank
    # an oblong: a circle and the block between its halves; no countersink, since the head must slide
    lost = cylinder(shank, 20) + 2 * 3 * shank * 20
    assert 120 * 40 * 20 - piece.parts["cleat"].sharp.Volume() == pytest.approx(lost, rel=1e-6)
    slot = next(f for f in piece.parts["cleat"].features if f.kind == "screw hole").callouts[0].values
    assert (slot["slotted"], slot["slot"]) == ("front-back", shank + 6)


def test_a_slot_cannot_lie_the_way_the_screw_goes(outcome):
    text = PAIR.replace("MORE", "long: 45, slotted: up-down").replace("WOOD", "white oak")
    piece, problems = outcome(text)
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]


def test_stepped_hole_lets_a_short_screw_hold(built):
    piece = screwed(built, "long: 25, sunk: 12")
    known = drills(piece)
    wide = math.ceil(known.metric_head / 2) * 2
    lost = cylinder(wide, 12) + cylinder(known.metric_drills.shank, 20 - 12)
    assert 120 * 40 * 20 - piece.parts["cleat"].sharp.Volume() == pytest.approx(lost, rel=1e-6)
    pilot = cylinder(known.metric_drills.pilot_hard, 25 - (20 - 12))
    assert 300 * 100 * 40 - piece.parts["base"].sharp.Volume() == pytest.approx(pilot, rel=1e-6)


@pytest.mark.parametrize(
    ("more", "sunk", "long"),
    [
        ("long: 45", 0, 45),
        ("long: 25, sunk: 12", 12, 25),
        ("long: 45, plugged: 6", 6, 45),
        ("long: 45, slotted: front-back", 0, 45),
    ],
)
def test_plain_solid_stands_in_its_hole(built, more, sunk, long):
    piece = screwed(built, f"{more}, per place: 2")
    (fixing,) = piece.fixings
    assert not has_errors(check_fit(piece, as_printed=False))
    solids = fixing.solids()
    assert len(solids) == len(fixing.points) == 2
    for solid, point in zip(solids, fixing.points, strict=True):
        assert solid.isValid() and solid.Center().toTuple()[:2] == pytest.approx(point[:2], abs=1e-6)
        # the tip lies the length of the screw below its head, which lies below the face where it is sunk
        assert solid.BoundingBox().zmin == pytest.approx(60 - sunk - long, abs=0.01)


def test_screws_that_cross_are_found(built):
    post = """  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 60, width: 40, thickness: 20,
     where: {bottom: floor, front: base.back, centred: left-right}}
fixings:
  - wood screw: {through: post, into: base, diameter: 4, long: 80}
"""
    text = PAIR.replace("MORE", "long: 45").replace("WOOD", "white oak").replace("fixings:\n", post)
    # the post's screw lies 20 mm up in the base, the cleat's ends 15 mm up, on the same middle
    assert "screws-cross" in {p.code for p in check_fit(built(text), as_printed=False)}


def test_screw_that_comes_out_below(outcome):
    piece, problems = outcome(PAIR.replace("MORE", "long: 61").replace("WOOD", "white oak"))
    assert piece is None and [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
    assert "comes out of base" in problems[0].message and "40 mm of wood" in problems[0].message
