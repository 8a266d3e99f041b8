"""Through, haunched, paired, wedged and pegged tenons, against the volumes of blocks, wedges and cylinders."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from model.takeoff import hardware
from plans.problems import has_errors

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 400, width: 60, thickness: 60,
     where: {left: -300, centred: front-back, bottom: floor}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 100, thickness: 40,
     where: {top: 400, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - mortise and tenon: {of: rail, into: post, SAID, count: 2}
"""
LONG = 600 - 2 * 60  # between the posts
POST, RAIL = 60 * 60 * 400, LONG * 100 * 40
FIT, RELIEF = 0.1, 1.5


def frame(built, said: str):
    piece = built(FRAME.replace("SAID", said))
    assert not has_errors(check_fit(piece, as_printed=False))
    first, second = (piece.parts[name] for name in ("rail", "post left"))
    assert common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at)) < 1e-6
    return piece


def volumes(piece):
    return piece.parts["rail"].sharp.Volume() - RAIL, POST - piece.parts["post left"].sharp.Volume()


@pytest.mark.parametrize("proud", [0, 12])
def test_through_tenon_is_as_long_as_the_post_is_wide(built, proud):
    said = "thick: 12, through: yes, shoulders: {top: 20, bottom: 10}" + (f", proud: {proud}" if proud else "")
    piece = frame(built, said)
    added, taken = volumes(piece)
    assert added == pytest.approx(2 * 12 * 70 * (60 + proud), rel=1e-9)
    assert taken == pytest.approx((12 + 2 * FIT) * (70 + 2 * FIT) * 60, rel=1e-9)
    assert piece.parts["rail"].length == pytest.approx((-300 - proud, 300 + proud))
    assert piece.joints[0].travel == pytest.approx(60 + proud)
    (mortise,) = [f for f in piece.parts["post left"].features if f.kind == "mortise"]
    assert mortise.callouts[0].values["deep"] is None


@settings(max_examples=6, deadline=None)
@given(lean=st.integers(-200, 200).map(lambda n: n / 10))
def test_through_a_leaning_post(built, lean):
    text = FRAME.replace("SAID", "thick: 12, through: yes, shoulders: {top: 20, bottom: 10}")
    text = text.replace("length: 400,", "cut to: {top: 500, bottom: floor},")
    text = text.replace("bottom: floor}, mirror", f"measured at: 350}}, lean: {{foot to: {{left: {lean}}}}}, mirror")
    piece = built(text)
    c = math.cos(math.radians(lean))
    # both faces of the post are parallel: every line along the rail runs through 60 / cos of it
    assert POST * 1.25 / c - piece.parts["post left"].sharp.Volume() == pytest.approx(12.2 * 70.2 * 60 / c, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_haunch_fills_the_shoulder(built):
    piece = frame(built, "thick: 12, long: 40, shoulders: {top: 25, bottom: 10}, haunch: {top: 12}")
    added, taken = volumes(piece)
    assert added == pytest.approx(2 * (12 * 65 * 40 + 12 * 25 * 12), rel=1e-9)
    wide = 12 + 2 * FIT
    # the haunch's own pocket is open at the end of the post, which is level with the top of the rail
    pocket = (25 - FIT) * (12 + RELIEF)
    assert taken == pytest.approx(wide * ((65 + 2 * FIT) * (40 + RELIEF) + pocket), rel=1e-9)
    (tenon, _) = [f for f in piece.parts["rail"].features if f.kind == "tenon"]
    assert next(s.value for s in tenon.sizes if s.name == "haunch length") == pytest.approx(12)


def test_pairs_of_tenons(built):
    twin = frame(built, "thick: 8, long: 40, twin: 10")
    added, taken = volumes(twin)
    assert added == pytest.approx(2 * 2 * 8 * 100 * 40, rel=1e-9)
    # open at the end of the post, so that the fit is taken at the bottom only
    assert taken == pytest.approx(2 * 8.2 * (100 + FIT) * (40 + RELIEF), rel=1e-9)
    split = frame(built, "thick: 12, long: 40, split: 30, shoulders: {top: 10, bottom: 10}")
    added, taken = volumes(split)
    assert added == pytest.approx(2 * 2 * 12 * 25 * 40, rel=1e-9)
    assert taken == pytest.approx(2 * 12.2 * 25.2 * (40 + RELIEF), rel=1e-9)
    assert len(split.joints) == 2 and len([f for f in split.parts["post left"].features if f.kind == "mortise"]) == 2
    # four cheeks of each tenon, and the shoulder less both mortises
    expected = 2 * 2 * (12 + 25) * 40 + 100 * 40 - 2 * 12.2 * 25.2
    assert glue_area(split.parts["rail"], split.parts["post left"]) == pytest.approx(expected, rel=1e-6)


def test_wedged_tenon(built):
    said = "thick: 12, through: yes, shoulders: {top: 20, bottom: 10}, wedges: {flare: 4}"
    piece = frame(built, said)
    added, taken = volumes(piece)
    # common practice, from memory: two cuts of a hand saw (1.6 mm), two thirds of the way to the shoulder
    assert added == pytest.approx(2 * 12 * (70 * 60 - 2 * 1.6 * 40), rel=1e-9)
    flares = 2 * (4 * 60 / 2)
    assert taken == pytest.approx(12.2 * (70.2 * 60 + flares), rel=1e-9)
    (row,) = hardware(piece)
    assert (row.what, row.count) == ("wedge", 4)
    # each wedge fills its saw cut and takes up the flare of one end
    assert row.values["thick"] == pytest.approx(1.6 + 4) and row.values["long"] == pytest.approx(40)


@pytest.mark.parametrize(("deep", "reach"), [("", 60.0), (", deep: 45", 45.0)])
def test_draw_bored_pegs(built, deep, reach):
    said = f"thick: 12, long: 40, shoulders: {{top: 20, bottom: 10}}, pegs: {{diameter: 8, count: 2, set in: 18{deep}}}"
    piece = frame(built, said)
    added, taken = volumes(piece)
    circle = math.pi * 16
    assert added == pytest.approx(2 * (12 * 70 * 40 - 2 * circle * 12), rel=1e-9)
    mortise = 12.2 * 70.2 * 41.5
    assert taken == pytest.approx(mortise + 2 * circle * (reach - 12.2), rel=1e-9)
    (in_post,) = [f for f in piece.parts["post left"].features if f.kind == "peg hole"]
    in_rail = [f for f in piece.parts["rail"].features if f.kind == "peg hole"]
    # the hole of the tenon lies nearer the shoulder (1.5 mm unless said): the peg draws the joint tight
    from_shoulder = {s.name: s.value for f in in_rail for s in f.sizes}["peg hole from shoulder"]
    assert from_shoulder == pytest.approx(18 - 1.5)
    assert in_post.callouts[0].face == "front"
    assert sorted(s.value for s in in_post.sizes if s.along == "up-down") == pytest.approx([35, 20 + 17.5])
    (row,) = hardware(piece)
    assert (row.what, row.count, row.values["diameter"]) == ("peg", 4, 8.0)
    assert row.values["long"] == pytest.approx(reach)


@settings(max_examples=6, deadline=None)
@given(
    thick=st.integers(8, 20),
    long=st.integers(34, 54),
    top=st.integers(15, 40),
    haunch=st.integers(6, 20),
    peg=st.integers(5, 8),
)
def test_any_haunched_and_pegged_tenon_is_sound(built, thick, long, top, haunch, peg):
    pegs = f"pegs: {{diameter: {peg}, count: 2, set in: {1.5 * peg}}}"
    piece = frame(built, f"thick: {thick}, long: {long}, shoulders: {{top: {top}}}, haunch: {{top: {haunch}}}, {pegs}")
    added, _ = volumes(piece)
    stock = thick * ((100 - top) * long + top * haunch) - 2 * math.pi * peg**2 / 4 * thick
    assert added == pytest.approx(2 * stock, rel=1e-9)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("thick: 12, long: 57", "leaves 1.5 mm of wood under it in post left; at least 3 mm is wanted"),
        ("thick: 38, long: 30, twin: 1", "leaves no cheek on rail"),
        ("thick: 12, long: 40, pegs: {diameter: 10, set in: 30}", "between it and the end of the tenon"),
        ("thick: 12, long: 40, pegs: {diameter: 10, set in: 12}", "between it and the shoulder; at least 10 mm"),
        ("thick: 12, long: 40, pegs: {diameter: 10, set in: 20, count: 6}", "of tenon beside each"),
        ("thick: 12, long: 40, pegs: {diameter: 10, set in: 20, deep: 58}", "leaves 2 mm of wood under it"),
        ("thick: 12, long: 40, split: 93", "two tenons 3.5 mm wide"),
    ],
)
def test_outside_its_limits(outcome, said, words):
    piece, (problem,) = outcome(FRAME.replace("SAID", said))
    assert piece is None
    assert (problem.code, problem.place.line) == ("joint-fails", 14)
    assert words in problem.message


def test_a_wall_too_thin(outcome):
    text = FRAME.replace("SAID", "thick: 12, long: 40").replace(
        "where: {top: 400, centred: [left-right, front-back]}", "where: {top: 400, centred: left-right, front: -44}"
    )
    piece, (problem,) = outcome(text.replace("count: 2", "ends: left, count: 1"))
    # the rail stands 14 mm in front of the post: its tenon, 14 mm behind its front, begins at the face of the post
    assert piece is None
    assert "of wall in post left; at least 3 mm is wanted" in problem.message
