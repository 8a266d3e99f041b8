"""Where parts stand: worked out by hand from what the design says, and checked on the corners of the solids."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.frames import matrix_of

TABLE = """parts:
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 800, width: 400, thickness: 20,
     where: {top: 500, centred: [left-right, front-back]}}
"""
LEG = """  leg:
    wood: white oak
    runs: up-down
    thick: front-back
    width: 50
    thickness: 40
    where: {left: top.left + 60, front: top.front + 30, measured at: MEASURED}
    lean: {foot to: {left: LEFT, front: FRONT}}
    cut to: {top: top.bottom, bottom: floor}
    mirror: [left-right, front-back]
"""


def corners(part) -> np.ndarray:
    """Corner points in the piece (n x 3)."""
    return np.array([v.toTuple() for v in part.sharp.moved(part.at).Vertices()])


def box(part) -> list[tuple[float, float]]:
    """Reach left-right, front-back and up-down."""
    points = corners(part)
    return list(zip(points.min(axis=0).tolist(), points.max(axis=0).tolist(), strict=True))


def test_sides_from_the_floor_the_centre_and_other_parts(built):
    piece = built(
        TABLE
        + """  back:
    {wood: white oak, runs: left-right, thick: front-back, length: 700, width: 120, thickness: 18,
     where: {bottom: top.top, back: top.back - 10, right: top.right}}
  stop:
    {wood: white oak, runs: front-back, thick: left-right, length: 100, width: 40, thickness: 10,
     where: {bottom: (top.top + back.top) / 2, front: -30, left: back.left - 5}}
"""
    )
    assert box(piece.parts["top"]) == [pytest.approx(p) for p in [(-400, 400), (-200, 200), (480, 500)]]
    assert box(piece.parts["back"]) == [pytest.approx(p) for p in [(-300, 400), (172, 190), (500, 620)]]
    assert box(piece.parts["stop"]) == [pytest.approx(p) for p in [(-305, -295), (-30, 70), (560, 600)]]
    assert piece.size == pytest.approx((800, 400, 140))


def test_centred_on_another_part(built):
    piece = built(
        TABLE
        + """  block:
    {wood: white oak, runs: left-right, thick: up-down, length: 100, width: 60, thickness: 30,
     where: {bottom: top.top, left: top.left + 40, front: top.front + 50}}
  knob:
    {wood: white oak, runs: up-down, thick: front-back, length: 25, width: 20, thickness: 20,
     where: {bottom: block.top, centred: {left-right: block, front-back: block}}}
  peg:
    {wood: white oak, runs: front-back, thick: left-right, length: 70, width: 20, thickness: 10,
     where: {left: block.right, front: block.front, centred: {up-down: block}}}
"""
    )
    middle = [sum(p) / 2 for p in box(piece.parts["block"])]
    knob = [sum(p) / 2 for p in box(piece.parts["knob"])]
    assert knob[:2] == pytest.approx(middle[:2]) and middle[:2] == pytest.approx([-310, -120])
    assert sum(box(piece.parts["peg"])[2]) / 2 == pytest.approx(middle[2])


@settings(max_examples=8, deadline=None)
@given(
    left=st.integers(-15, 15),
    front=st.integers(-15, 15),
    measured=st.sampled_from(["top.bottom", "floor", "150"]),
)
def test_leaning_leg_is_measured_at_a_height(built, left, front, measured):
    text = TABLE + LEG.replace("LEFT", str(left)).replace("FRONT", str(front)).replace("MEASURED", measured)
    leg = built(text).parts["leg front left"]
    points = corners(leg)
    level = {"top.bottom": 480.0, "floor": 0.0}.get(measured, 150.0)
    # a leg is a prism: at any height its section is that at the floor, shifted by the lean
    at_floor = points[points[:, 2] < 1e-6]
    shift = level * np.array([math.tan(math.radians(left)), math.tan(math.radians(front))])
    assert len(at_floor) == 4
    assert (at_floor[:, :2] + shift).min(axis=0) == pytest.approx((-400 + 60, -200 + 30))
    assert (points[:, 2].min(), points[:, 2].max()) == pytest.approx((0, 480), abs=1e-9)


def test_mirrored_parts_are_called_by_where_they_stand(built):
    text = TABLE + LEG.replace("LEFT", "8").replace("FRONT", "5").replace("MEASURED", "top.bottom")
    parts = built(text).parts
    assert list(parts) == ["top", "leg front left", "leg front right", "leg back left", "leg back right"]
    first = corners(parts["leg front left"])
    for name, signs in {"front right": (-1, 1), "back left": (1, -1), "back right": (-1, -1)}.items():
        image = corners(parts[f"leg {name}"])
        wanted = first * [*signs, 1]
        assert sorted(image.round(6).tolist()) == sorted((wanted.round(6) + 0.0).tolist())


def test_features_of_a_mirrored_part_name_its_own_sides(built):
    piece = built(
        """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 300, width: 80, thickness: 20,
     where: {bottom: floor, left: -200, centred: front-back}, mirror: left-right,
     shaping: [round over: {arrises: [front left, back left], radius: 3}, notch: {side: left, from: top, at: 50,
     long: 40, deep: 5}, end cut: {end: top, slopes: {left: 10}}]}
"""
    )
    for name, own in (("side left", "left"), ("side right", "right")):
        said = {f.kind: (f.callouts[0].values, f.operation.settings) for f in piece.parts[name].features if f.operation}
        for values in said["round over"]:
            assert values["arrises"] == f"front {own}; back {own}"
        for values in said["notch"]:
            assert values["side"] == own
        for values in said["end cut"]:
            assert values["slope towards"] == own


@pytest.mark.parametrize(
    ("how", "pitch"),
    # three slats of 60: 300 filled leaves two gaps of 60
    [("filling: 300", 120.0), ("gap: 15", 75.0), ("spacing: 100", 100.0)],
)
def test_repeats(built, how, pitch):
    piece = built(
        f"""parts:
  slat:
    {{wood: white oak, runs: left-right, thick: up-down, length: 300, width: 60, thickness: 18,
     where: {{bottom: floor, centred: left-right, front: 100}},
     repeat: {{along: front-back, count: 3, {how}}}}}
"""
    )
    assert list(piece.parts) == ["slat 1", "slat 2", "slat 3"]
    middles = [sum(box(part)[1]) / 2 for part in piece.parts.values()]
    # the row is centred where the one part would stand
    assert middles == pytest.approx([130 - pitch, 130, 130 + pitch])


def test_one_of_a_row_stands_in_its_middle(built):
    piece = built(
        """parts:
  slat:
    {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 60, thickness: 18,
     where: {bottom: floor, centred: [left-right, front-back]},
     repeat: {along: front-back, count: 1, filling: 300}}
"""
    )
    assert list(piece.parts) == ["slat"] and box(piece.parts["slat"])[1] == pytest.approx((-30, 30))


RAIL = """  rail:
    wood: white oak
    runs: RUNS
    thick: THICK
    width: 60
    thickness: 20
    follows: leg
    where: {top: 300, WHERE}
    cut to: {CUT}
"""


@pytest.mark.parametrize(
    ("runs", "thick", "where", "cut", "lean"),
    [
        # it leans as the leg does, but not along its own run
        ("left-right", "front-back", "front: leg.front, centred: left-right", "left: leg, right: leg", (0, 5)),
        ("front-back", "left-right", "left: leg.left, centred: front-back", "front: leg, back: leg", (8, 0)),
    ],
)
def test_followers(built, runs, thick, where, cut, lean):
    text = TABLE + LEG.replace("LEFT", "8").replace("FRONT", "5").replace("MEASURED", "top.bottom")
    text += RAIL.replace("RUNS", runs).replace("THICK", thick).replace("WHERE", where).replace("CUT", cut)
    piece = built(text)
    up = matrix_of(piece.parts["rail"].at)[:3, 2]
    assert (up[0] / up[2], up[1] / up[2]) == pytest.approx([math.tan(math.radians(a)) for a in lean])
    # its outer side lies where the leg's own is at the height of its top, 300 above the floor
    side, edge = (1, -170) if runs == "left-right" else (0, -340)
    foot = math.tan(math.radians(lean[side])) * (480 - 300)
    rail = corners(piece.parts["rail"])
    assert rail[:, 2].max() == pytest.approx(300)
    assert rail[np.abs(rail[:, 2] - 300) < 1e-6][:, side].min() == pytest.approx(edge - foot)


def test_a_blank_is_just_cleaned_up_by_its_cut(built):
    # the leaning rail's top is cut level at 300: the blank's lower top arris lies there, nothing of its width is lost
    text = TABLE + LEG.replace("LEFT", "0").replace("FRONT", "10").replace("MEASURED", "top.bottom")
    text += (
        RAIL.replace("RUNS", "left-right")
        .replace("THICK", "front-back")
        .replace("WHERE", "front: leg.front, centred: left-right")
        .replace("CUT", "left: leg, right: leg, top: 300")
    )
    rail = built(text).parts["rail"]
    assert rail.width[1] - rail.width[0] == pytest.approx(60)
    top = [f for f in rail.sharp.moved(rail.at).Faces() if abs(f.Center().z - 300) < 1e-6]
    assert len(top) == 1 and top[0].normalAt().toTuple() == pytest.approx((0, 0, 1))
    # the whole of its top is cut, and no more: 20 thick, seen level
    (low, high) = (top[0].BoundingBox().ymin, top[0].BoundingBox().ymax)
    assert high - low == pytest.approx(20 / math.cos(math.radians(10)))


def test_outermost_of_all_of_a_kind(built):
    piece = built(
        """parts:
  slat:
    {wood: white oak, runs: front-back, thick: up-down, length: 300, width: 60, thickness: 18,
     where: {bottom: 40, centred: [left-right, front-back]}, repeat: {along: left-right, count: 4, gap: 20}}
  first:
    {wood: white oak, runs: left-right, thick: up-down, width: 30, thickness: 20, where: {bottom: floor, front: 0},
     cut to: {left: slat.left, right: slat.right}}
  whole:
    {wood: white oak, runs: left-right, thick: up-down, width: 30, thickness: 20, where: {bottom: floor, front: 60},
     cut to: {left: all slat.left + 5, right: all slat.right - 5}}
"""
    )
    assert box(piece.parts["first"])[0] == pytest.approx((-150, -90))
    assert box(piece.parts["whole"])[0] == pytest.approx((-145, 145))
