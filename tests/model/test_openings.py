"""What opens: where it is then, by the closed formula of a shift or a turn, and what it runs into."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks import gap_narrows, openings
from model.opening import opened

DOOR = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 300, width: 200, thickness: 20,
     where: {bottom: floor, left: -150, centred: front-back}, mirror: left-right}
  door:
    {wood: white oak, runs: up-down, thick: front-back, length: 280, thickness: 20,
     where: {bottom: 10, front: side.front}, cut to: {left: side, right: side}, gap: GAP}
assemblies: {door: {parts: door, opens: {OPENS}}}
"""


def door(opens: str, gap: float = 2) -> str:
    return DOOR.replace("OPENS", opens).replace("GAP", str(gap))


def reach(mesh) -> np.ndarray:
    return np.array([mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)])


@settings(max_examples=10, deadline=None)
@given(angle=st.integers(1, 100))
def test_a_door_turns_about_its_arris(built, angle):
    piece = built(door(f"towards: front, angle: {angle}, about: left front"))
    corner = np.array([-128.0, -100.0])
    turned = opened(piece)["door"].meshes()["door"].vertices[:, :2] - corner
    # 256 wide and 20 thick: its free corners, turned towards the front by the angle
    cosine, sine = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    wanted = [(256 * cosine + d * sine, -256 * sine + d * cosine) for d in (0, 20)]
    for point in wanted:
        assert np.linalg.norm(turned - np.array(point), axis=1).min() == pytest.approx(0, abs=1e-6)


def test_a_drawer_comes_out_by_its_length(built):
    piece = built(door("front: 150"))
    assert reach(opened(piece)["door"].meshes()["door"])[0] == pytest.approx([-128, -250, 10])
    solid = opened(piece)["door"].solids()["door"]
    assert solid.BoundingBox().ymin == pytest.approx(-250, abs=1e-5)
    assert not openings.check(piece)


@pytest.mark.parametrize(("gap", "clears"), [(0.5, False), (1.2, True)])
def test_a_door_between_cheeks_needs_room_for_its_far_corner(built, gap, clears):
    # about its front arris the back corner of the free edge swings out to sqrt(w2 + t2):
    # with w = 260 - 2 gap and t = 20 that is 0.77 mm more than w; the back corner by the pin stands clear
    wide = 260 - 2 * gap
    assert (math.hypot(wide, 20) - wide < gap) == clears
    problems = openings.check(built(door("towards: front, angle: 90, about: left front", gap)))
    assert (not problems) == clears


def test_a_mirrored_door_opens_the_other_way(built):
    piece = built(
        """parts:
  door:
    {wood: white oak, runs: up-down, thick: front-back, length: 280, width: 100, thickness: 20,
     where: {bottom: 10, front: 0, left: -150}}
assemblies: {door: {parts: door, mirror: left-right, opens: {towards: front, angle: 90, about: left front}}}
"""
    )
    left, right = (
        reach(state.meshes()[name]) for name, state in ((f"door of {n}", s) for n, s in opened(piece).items())
    )
    assert left[:, 0] == pytest.approx([-150, -130]) and right[:, 0] == pytest.approx([130, 150])
    assert left[:, 1] == pytest.approx([-100, 0]) and right[:, 1] == pytest.approx([-100, 0])


LID = """parts:
  back:
    {wood: white oak, runs: left-right, thick: front-back, length: 400, width: 200, thickness: 20,
     where: {bottom: floor, back: 0, centred: left-right}}
  lid:
    {wood: white oak, runs: left-right, thick: up-down, length: 400, width: 250, thickness: 20,
     where: {bottom: back.top + 1, back: back.back, centred: left-right}}
WALL
assemblies: {lid: {parts: lid, opens: {towards: top, angle: ANGLE}}}
fixings: [butt hinge: {of: lid, on: back, size: 2 in, knuckle: back, inset: 40, per place: 2}]
"""
WALL = """  wall:
    {wood: white oak, runs: left-right, thick: front-back, length: 500, width: 600, thickness: 20,
     where: {bottom: floor, front: 15, centred: left-right}}"""


def test_a_lid_turns_about_the_pin_of_its_hinges(built):
    piece = built(LID.replace("WALL\n", "").replace("ANGLE", "90"))
    mesh = opened(piece)["lid"].meshes()["lid"]
    # a quarter turn carries (y, z) from the pin to (z, -y): the pin lies 0.5 mm and half a knuckle (of 3/16 in)
    # behind the back, in the middle of the gap of 1 mm
    pin_y, pin_z = 0.5 + 25.4 * 3 / 16 / 2, 200.5
    assert reach(mesh)[0][1] == pytest.approx(pin_y + (201 - pin_z), abs=1e-6)
    assert reach(mesh)[1][2] == pytest.approx(pin_z + pin_y + 250, abs=1e-6)
    assert reach(mesh)[0][2] == pytest.approx(pin_z + pin_y, abs=1e-6)
    assert not openings.check(piece)


def test_a_lid_that_meets_the_wall_behind_it(built):
    (problem,) = openings.check(built(LID.replace("WALL", WALL).replace("ANGLE", "95")))
    assert problem.code == "blocked-opening" and set(problem.parts) == {"lid", "wall"}
    assert problem.place.text.startswith("assemblies: {lid:")


def test_what_is_shared_is_told(built):
    # pulled 30 to the left from 2 off: 18 of its 20 x 280 lie in the side at the worst
    (problem,) = openings.check(built(door("left: 20")))
    assert problem.found == f"{18 * 20 * 280} mm3 shared" and set(problem.parts) == {"door", "side left"}


@pytest.mark.parametrize(("clear", "told"), [(0.4, True), (1.2, False)])
def test_a_lid_that_all_but_scrapes_the_wall(built, clear: float, told: bool):
    """The way of its arrises worked out apart: turned about the pin (see above) in steps of 1/100 degree."""
    pin = np.array([0.5 + 25.4 * 3 / 16 / 2, 200.5])
    arrises = np.array([[0, 201], [0, 221], [-250, 201], [-250, 221]]) - pin
    ways = np.radians(np.arange(0, 95.01, 0.01))
    far = max(float((pin[0] + y * np.cos(ways) + z * np.sin(ways)).max()) for y, z in arrises)
    piece = built(LID.replace("WALL", WALL.replace("front: 15", f"front: {far + clear:.4f}")).replace("ANGLE", "95"))
    assert not openings.check(piece)
    found = gap_narrows.check(piece)
    assert bool(found) == told
    for problem in found:
        assert set(problem.parts) == {"lid", "wall"}
        assert float(problem.found.split()[0]) == pytest.approx(clear, abs=0.03)  # tried every degree
