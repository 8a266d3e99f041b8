import math

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.frames import matrix_of
from model.meshes import Mesh, mesh_of
from model.overlap import overlap_volume
from model.travel import free_travel

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def free(mover: cq.Shape, static: cq.Shape, direction) -> float:
    return free_travel(mesh_of(mover), mesh_of(static), direction)


def shifted(mesh: Mesh, direction, by: float) -> Mesh:
    matrix = np.eye(4)
    matrix[:3, 3] = np.asarray(direction) * by
    return mesh.moved(matrix)


def stepped(mover: Mesh, static: Mesh, direction, limit: float, step: float = 0.25) -> float:
    """Brute force: move in steps until the bodies share volume (a boolean library's word, not ours)."""
    for n in range(1, int(limit / step) + 1):
        if overlap_volume(shifted(mover, direction, n * step), static) > 0.05:
            return (n - 1) * step
    return math.inf


def test_box_stops_at_the_next():
    a, b = box(10, 10, 10), box(10, 10, 10, (25, 5, 5))
    assert free(a, b, X) == pytest.approx(15)
    assert free(a, b, (-1.0, 0.0, 0.0)) == math.inf
    assert free(b, a, (-1.0, 0.0, 0.0)) == pytest.approx(15)


def test_touching_face_blocks_and_sliding_face_does_not():
    a, b = box(10, 10, 10), box(10, 10, 10, (10, 0, 0))
    assert free(a, b, X) == 0
    assert free(a, b, Y) == math.inf
    assert free(a, b, (-1.0, 0.0, 0.0)) == math.inf


def test_tenon_in_its_mortise():
    rail = box(200, 20, 50).fuse(box(25, 8, 30, (200, 6, 10))).clean()
    post = box(50, 50, 200, (200, -15, -80)).cut(box(27, 8.2, 30.2, (200, 5.9, 9.9)))
    assert free(rail, post, (-1.0, 0.0, 0.0)) == math.inf
    assert free(rail, post, X) == pytest.approx(0, abs=1e-9)  # shoulder home
    assert free(rail, post, Y) == pytest.approx(0.1)
    assert free(rail, post, Z) == pytest.approx(0.1)


def test_leaning_tenon_is_caught_by_its_clearance():
    # straight up against walls leaning by 6 degrees: clearance / sin(6)
    lean = math.radians(6)
    tenon = box(30, 10, 60, (-15, -5, -30))
    block = box(100, 100, 40, (-50, -50, -20)).cut(
        box(30, 10.2, 100, (-15, -5.1, -50)).rotate(cq.Vector(), cq.Vector(1, 0, 0), 6)
    )
    leaning = tenon.rotate(cq.Vector(), cq.Vector(1, 0, 0), 6)
    assert free(leaning, block, Z) == pytest.approx(0.1 / math.sin(lean), rel=1e-6)
    along = (0.0, -math.sin(lean), math.cos(lean))
    assert free(leaning, block, along) == math.inf


def test_open_notch_lets_go_upwards_only():
    bearer = box(200, 30, 40).cut(box(50, 30, 15, (60, 0, 25)))
    slat = box(49.8, 300, 15, (60.1, -100, 25))
    assert free(slat, bearer, Z) == math.inf
    assert free(slat, bearer, Y) == math.inf
    assert free(slat, bearer, X) == pytest.approx(0.1)
    assert free(slat, bearer, (0.0, 0.0, -1.0)) == pytest.approx(0)


def test_slanting_faces_meet_at_their_nearest_point():
    # mover: a roof with its ridge up; static: a flat slab 10 above the ridge
    roof = cq.Workplane("XZ").polyline([(-20, 0), (20, 0), (0, 15)]).close().extrude(30).val()
    slab = box(100, 100, 5, (-50, -60, 25))
    assert free(roof, slab, Z) == pytest.approx(10)


def test_round_dowel_slides_along_its_hole():
    dowel = cq.Solid.makeCylinder(4, 30, cq.Vector(20, 20, 10))
    block = box(40, 40, 40).cut(cq.Solid.makeCylinder(4, 30, cq.Vector(20, 20, 10)))
    assert free(dowel, block, Z) == math.inf
    assert free(dowel, block, (0.0, 0.0, -1.0)) == pytest.approx(0, abs=1e-9)


def test_the_pose_does_not_matter():
    turn = matrix_of(cq.Location(cq.Vector(3, 4, 5), cq.Vector(1, 1, 0.3), 33))
    bearer = mesh_of(box(200, 30, 40).cut(box(50, 30, 15, (60, 0, 25)))).moved(turn)
    slat = mesh_of(box(49.8, 300, 15, (60.1, -100, 25))).moved(turn)
    up, right = turn[:3, :3] @ Z, turn[:3, :3] @ X
    assert free_travel(slat, bearer, up) == math.inf
    assert free_travel(slat, bearer, right) == pytest.approx(0.1)


@settings(max_examples=25, deadline=None)
@given(
    gap=st.floats(0.5, 25),
    angle=st.floats(0, 90),
    direction=st.sampled_from([X, Y, Z]),
    notch=st.booleans(),
)
def test_agrees_with_stepping(gap, angle, direction, notch):
    mover = box(20, 20, 20, (-10, -10, -10)).rotate(cq.Vector(), cq.Vector(1, 0.4, 0.2), angle)
    wall = box(60, 60, 20, (-30, -30, 17.4 + gap))  # 10 sqrt 3 = 17.32 is the cube's furthest reach
    if notch:
        wall = wall.cut(box(16, 60, 12, (-5, -30, 17.4 + gap)))
    turned = {X: ((0, 1, 0), 90), Y: ((1, 0, 0), -90), Z: ((0, 0, 1), 0)}[direction]
    wall = wall.rotate(cq.Vector(), cq.Vector(*turned[0]), turned[1])
    a, b = mesh_of(mover), mesh_of(wall)
    exact = free_travel(a, b, direction)
    assert overlap_volume(shifted(a, direction, exact - 0.01), b) < 0.01
    # a corner may have to go in some way before it has 0.05 mm3 inside
    assert exact - 0.25 <= stepped(a, b, direction, 60) <= exact + 1.5
