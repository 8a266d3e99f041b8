"""Mortise and tenon, square and leaning, against the volumes of prisms between two planes."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.frames import matrix_of
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

FRAME = """parts:
  post:
    wood: white oak
    runs: up-down
    thick: front-back
    width: 60
    thickness: 60
    where: {{left: -300, centred: front-back, measured at: 200}}
    lean: {{foot to: {{left: {lean}}}}}
    cut to: {{top: 400, bottom: floor}}
    mirror: left-right
  rail:
    wood: white oak
    runs: left-right
    thick: front-back
    width: 70
    thickness: 24
    where: {{top: 240, centred: [left-right, front-back]}}
    cut to: {{left: post, right: post}}
joints:
  - mortise and tenon: {{of: rail, into: post, thick: 8, long: 30, {more}count: 2}}
"""


def frame(built, lean: float = 0.0, more: str = ""):
    return built(FRAME.format(lean=lean, more=more))


def shares(piece, a: str, b: str) -> float:
    first, second = piece.parts[a], piece.parts[b]
    return common_volume(first.sharp.moved(first.at), second.sharp.moved(second.at))


def test_square_tenon_is_a_block(built):
    piece = frame(built, 0.0, "shoulders: {top: 12, bottom: 8}, ")
    between, wide = 600 - 2 * 60, 70 - 12 - 8
    rail, post = piece.parts["rail"], piece.parts["post left"]
    assert rail.sharp.Volume() == pytest.approx(between * 70 * 24 + 2 * 8 * wide * 30, rel=1e-9)
    # the mortise is the tenon grown by the fit on each cheek and by the relief in depth
    mortise = 60 * 60 * 400 - post.sharp.Volume()
    assert mortise == pytest.approx((8 + 0.2) * (wide + 0.2) * (30 + 1.5), rel=1e-9)
    assert rail.length == pytest.approx((-between / 2 - 30, between / 2 + 30))


def test_square_shoulder_lies_on_the_post(built):
    piece = frame(built, 0.0, "fit: 1, shoulders: {top: 12, bottom: 8}, ")
    # cheeks a millimetre off do not touch: the shoulder is what is left of the end around the mortise
    assert glue_area(piece.parts["rail"], piece.parts["post left"]) == pytest.approx(70 * 24 - 10 * 52, rel=1e-6)
    close = frame(built, 0.0, "fit: 0.1, shoulders: {top: 12, bottom: 8}, ")
    cheeks = 2 * 8 * 30 + 2 * 50 * 30
    shoulder = 70 * 24 - 8.2 * 50.2
    assert glue_area(close.parts["rail"], close.parts["post left"]) == pytest.approx(shoulder + cheeks, rel=1e-6)


@settings(max_examples=8, deadline=None)
@given(lean=st.integers(-250, 250).map(lambda n: n / 10), long=st.integers(8, 34), thick=st.integers(4, 20))
def test_leaning_tenon_is_a_prism_between_two_planes(built, lean, long, thick):
    piece = built(FRAME.replace("thick: 8, long: 30", f"thick: {thick}, long: {long}").format(lean=lean, more=""))
    post, rail = piece.parts["post left"], piece.parts["rail"]
    c = math.cos(math.radians(lean))
    # both ends of the prism are parallel: its length along the rail is the depth over the cosine
    between = 600 - 2 * 60 / c - 2 * math.tan(math.radians(lean)) * (205 - 200)
    blank = (between * 70) * 24
    assert rail.sharp.Volume() == pytest.approx(blank + 2 * thick * 70 * long / c, rel=1e-9)
    reach = (70 + 0.2) * (thick + 0.2) * (long + 1.5) / c
    assert post.sharp.Volume() == pytest.approx(60 * 60 * 400 / c - reach, rel=1e-9)
    assert shares(piece, "rail", "post left") < 1e-6 and shares(piece, "rail", "post right") < 1e-6
    assert not has_errors(check_fit(piece, as_printed=False))


def test_shoulder_is_trimmed_to_the_leaning_face(built):
    piece = frame(built, 10.0, "shoulders: {top: 12, bottom: 8}, ")
    post, rail = piece.parts["post left"], piece.parts["rail"]
    face = matrix_of(post.at)[:3, :3] @ [1.0, 0.0, 0.0]
    normals = np.array([f.normalAt().toTuple() for f in rail.sharp.moved(rail.at).Faces()])
    # shoulders and the end of the tenon are all parallel to the face they meet
    assert sum(np.allclose(n, -face, atol=1e-9) for n in normals) >= 2
    c = math.cos(math.radians(10))
    shoulder = 70 * 24 / c - 50.2 * 8.2 / c
    cheeks = 2 * (50 + 8) * 30 / c
    # the ends of the grown mortise run out of the cheeks a little beyond the tenon's own slope
    assert glue_area(rail, post) == pytest.approx(shoulder + cheeks, rel=2e-3)


def test_features_say_what_was_cut(built):
    piece = frame(built, 10.0, "shoulders: {top: 12, bottom: 8}, ")
    (mortise,) = [f for f in piece.parts["post left"].features if f.kind == "mortise"]
    values = mortise.callouts[0].values
    assert values["thick"] == 8 and values["wide"] == pytest.approx(50) and values["deep"] == pytest.approx(31.5)
    assert values["side"] == "right" and values["off square"] == pytest.approx(10)
    tenons = [f for f in piece.parts["rail"].features if f.kind == "tenon"]
    assert sorted(f.callouts[0].values["end"] for f in tenons) == ["left", "right"]
    length = next(size for size in tenons[0].sizes if size.name == "tenon length")
    assert length.value == pytest.approx(30 / math.cos(math.radians(10)))


def test_joints_found_and_their_way_in(built):
    piece = frame(built, 10.0)
    assert [(j.kind, j.a, j.b, j.glued) for j in piece.joints] == [
        ("mortise and tenon", "rail", "post left", True),
        ("mortise and tenon", "rail", "post right", True),
    ]
    assert [j.direction for j in piece.joints] == [pytest.approx((-1, 0, 0)), pytest.approx((1, 0, 0))]


def test_only_the_ends_named(built, outcome):
    piece = built(FRAME.format(lean=0, more="ends: left, ").replace("count: 2", "count: 1"))
    assert [j.b for j in piece.joints] == ["post left"]
    assert piece.parts["rail"].length == pytest.approx((-270, 240))


@pytest.mark.parametrize(
    ("more", "thick", "lean", "code"),
    [
        ("", "24", 0, "joint-fails"),  # no cheek left
        ("shoulders: {top: 40, bottom: 29.5}, ", "8", 0, "joint-fails"),  # no tenon left
    ],
)
def test_tenon_that_cannot_be(outcome, more, thick, lean, code):
    piece, problems = outcome(FRAME.replace("thick: 8", f"thick: {thick}").format(lean=lean, more=more))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [(code, 26)]
