"""A part notched over another, against the volume of the block it gives way to."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import check_fit
from model.glue import glue_area
from model.overlap import common_volume
from plans.problems import has_errors

SHELF = """parts:
  bearer:
    {wood: white oak, runs: front-back, thick: left-right, length: 300, width: 50, thickness: 20,
     where: {bottom: floor, left: -150, centred: front-back}, mirror: left-right}
  slat:
    {wood: white oak, runs: left-right, thick: up-down, length: 400, width: 70, thickness: 18,
     where: {bottom: bearer.top - DEEP, centred: [left-right, front-back]}}
joints:
  - notch over: {of: slat, over: bearer, MOREcount: 2}
"""


def shelf(built, deep: float = 6.0, more: str = ""):
    return built(SHELF.replace("DEEP", str(deep)).replace("MORE", more))


def test_notches_of_a_slat(built):
    piece = shelf(built)
    slat, bearer = piece.parts["slat"], piece.parts["bearer left"]
    # 0.4 mm of room on each side, where nothing is said
    assert slat.sharp.Volume() == pytest.approx(400 * 70 * 18 - 2 * 20.8 * 6 * 70, rel=1e-9)
    assert bearer.sharp.Volume() == pytest.approx(300 * 50 * 20, rel=1e-12)
    assert common_volume(slat.sharp.moved(slat.at), bearer.sharp.moved(bearer.at)) < 1e-6
    # the floor of the notch lies on the bearer; its sides are within reach of glue
    assert glue_area(slat, bearer) == pytest.approx(20 * 70 + 2 * 6 * 70, rel=1e-6)
    assert not has_errors(check_fit(piece, as_printed=False))


def test_close_fit_and_dry_joint(built):
    piece = shelf(built, more="fit: 0, glue: no, ")
    assert piece.parts["slat"].sharp.Volume() == pytest.approx(400 * 70 * 18 - 2 * 20 * 6 * 70, rel=1e-9)
    assert [j.glued for j in piece.joints] == [False, False]


@settings(max_examples=6, deadline=None)
@given(deep=st.integers(5, 170).map(lambda n: n / 10), fit=st.integers(0, 20).map(lambda n: n / 10))
def test_any_notch_over(built, deep, fit):
    piece = shelf(built, deep, f"fit: {fit}, ")
    lost = 2 * (20 + 2 * fit) * deep * 70
    assert piece.parts["slat"].sharp.Volume() == pytest.approx(400 * 70 * 18 - lost, rel=1e-9)
    assert all(j.direction == pytest.approx((0, 0, -1)) for j in piece.joints)
    assert all(j.travel == pytest.approx(deep) for j in piece.joints)


def test_notch_for_a_leaning_bearer(built):
    text = (
        SHELF.replace("DEEP", "6")
        .replace("MORE", "fit: 0, ")
        .replace("centred: front-back}, mirror", "centred: front-back}, lean: {foot to: {left: 10}}, mirror")
    )
    piece = built(text)
    slat = piece.parts["slat"]
    # the bearer leans: what it takes is 6 mm deep at its highest arris and shrinks from there
    area = _section_below(6.0, 20.0, 50.0, 10.0)
    assert slat.sharp.Volume() == pytest.approx(400 * 70 * 18 - 2 * area * 70, rel=1e-9)
    (feature, _) = [f for f in slat.features if f.kind == "notch"]
    assert feature.callouts[0].values["walls"] == pytest.approx(10, abs=1e-5)


def _section_below(deep: float, thick: float, width: float, lean: float) -> float:
    """Area of a leaning rectangle that lies within `deep` of its highest corner (shoelace formula)."""
    a = math.radians(lean)
    corners = [
        (x * math.cos(a) + z * math.sin(a), z * math.cos(a) - x * math.sin(a))
        for x, z in ((0, 0), (thick, 0), (thick, -width), (0, -width))
    ]
    level = max(z for _, z in corners) - deep
    kept = []
    for (x1, z1), (x2, z2) in zip(corners, corners[1:] + corners[:1], strict=True):
        if z1 >= level:
            kept.append((x1, z1))
        if (z1 - level) * (z2 - level) < 0:
            kept.append((x1 + (x2 - x1) * (level - z1) / (z2 - z1), level))
    return abs(sum(x1 * z2 - x2 * z1 for (x1, z1), (x2, z2) in zip(kept, kept[1:] + kept[:1], strict=True))) / 2


@pytest.mark.parametrize(
    ("where", "way"),
    [
        ("top: 312, centred: [left-right, front-back]", (0, 0, -1)),  # a stub under the board: it sits down on it
        ("top: 330, left: -30, front: -110", (0, -1, 0)),  # a post at its front edge: pushed on towards the front
    ],
)
def test_notch_opens_where_it_breaks_out(built, where, way):
    piece = built(
        """parts:
  board:
    {wood: white oak, runs: left-right, thick: up-down, length: 400, width: 200, thickness: 20,
     where: {bottom: 300, centred: [left-right, front-back]}}
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 200, width: 60, thickness: 40, where: {WHERE}}
joints:
  - notch over: {of: board, over: post, fit: 0.4, count: 1}
""".replace("WHERE", where)
    )
    (joint,) = piece.joints
    assert joint.direction == pytest.approx(way)


def test_slat_that_sits_on_top(outcome):
    piece, problems = outcome(SHELF.replace("DEEP", "0").replace("MORE", ""))
    assert piece is None
    assert [(p.code, p.place.line) for p in problems] == [("joint-not-found", 14)]
