import math

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.frames import matrix_of
from model.meshes import mesh_of
from model.overlap import across, candidate_pairs, common_volume, contact_area, contact_patches, overlap_volume


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def test_candidate_pairs_by_boxes():
    meshes = [mesh_of(box(10, 10, 10, (x, 0, 0))) for x in (0, 10.2, 40)]
    assert candidate_pairs(meshes, 0.3) == [(0, 1)]
    assert candidate_pairs(meshes, 0.1) == []
    assert candidate_pairs(meshes, 30) == [(0, 1), (0, 2), (1, 2)]
    assert candidate_pairs(meshes[:1]) == []


@settings(max_examples=40, deadline=None)
@given(st.tuples(*[st.floats(-12, 12)] * 3))
def test_overlap_of_two_boxes_is_the_closed_formula(shift):
    a, b = box(10, 10, 10), box(8, 9, 10, shift)
    sides = [max(0.0, min(10, s + w) - max(0, s)) for s, w in zip(shift, (8, 9, 10), strict=True)]
    expected = math.prod(sides)
    assert overlap_volume(mesh_of(a), mesh_of(b)) == pytest.approx(expected, abs=1e-6)


def test_kernel_and_mesh_agree_on_a_slanting_clash():
    a = box(40, 40, 400)
    b = box(200, 20, 20, (-100, 10, 200)).rotate(cq.Vector(0, 0, 200), cq.Vector(0, 1, 200), 6)
    assert overlap_volume(mesh_of(a), mesh_of(b)) == pytest.approx(common_volume(a, b), rel=1e-9)
    assert common_volume(a, b) > 10_000


def test_touching_boxes_do_not_overlap():
    a, b = box(10, 10, 10), box(10, 10, 10, (10, 0, 0))
    assert overlap_volume(mesh_of(a), mesh_of(b)) < 1e-4
    assert common_volume(a, b) < 1e-9


def test_dowel_in_its_own_hole_is_free_by_the_kernel():
    dowel = cq.Solid.makeCylinder(4, 30, cq.Vector(20, 20, 0))
    block = box(40, 40, 40).cut(dowel)
    assert common_volume(block, dowel) < 1e-9


def test_patch_of_two_boxes_across_a_gap():
    a, b = box(100, 50, 20), box(40, 30, 20, (80, 10, 20.1))
    (patch,) = contact_patches(mesh_of(a), mesh_of(b))
    assert patch.area == pytest.approx(20 * 30)
    assert patch.gap == pytest.approx(0.1)
    assert np.allclose(patch.normal, [0, 0, 1])
    assert np.allclose(patch.centroid, [90, 25, 20])
    assert np.allclose(sorted(map(tuple, patch.outline)), [(80, 10, 20), (80, 40, 20), (100, 10, 20), (100, 40, 20)])
    assert contact_patches(mesh_of(a), mesh_of(b), reach=0.05) == []


def test_faces_looking_the_same_way_do_not_touch():
    assert contact_area(mesh_of(box(10, 10, 10)), mesh_of(box(5, 5, 10, (2, 2, 0)))) == 0


def test_patch_with_an_opening():
    a = box(60, 60, 10).cut(box(20, 20, 30, (20, 20, -10)))
    (patch,) = contact_patches(mesh_of(a), mesh_of(box(60, 60, 10, (0, 0, 10))))
    assert patch.area == pytest.approx(60 * 60 - 20 * 20)
    assert len(patch.holes) == 1
    assert np.allclose(patch.centroid, [30, 30, 10])


def test_tenon_touches_all_round():
    # tenon 30 x 8, 25 deep with 0.1 all round; shoulder 50 x 20 less the tenon's own section
    rail = box(200, 20, 50).fuse(box(25, 8, 30, (200, 6, 10))).clean()
    post = box(50, 50, 200, (200, -15, -80)).cut(box(27, 8.2, 30.2, (200, 5.9, 9.9)))
    area = contact_area(mesh_of(rail), mesh_of(post))
    mouth = 8.2 * 30.2
    assert area == pytest.approx(2 * 25 * 8 + 2 * 25 * 30 + (50 * 20 - mouth), rel=1e-6)


def test_patches_move_with_the_parts_and_turn_with_the_order():
    turn = matrix_of(cq.Location(cq.Vector(3, 4, 5), cq.Vector(1, 1, 0.3), 33))
    a, b = mesh_of(box(100, 50, 20)).moved(turn), mesh_of(box(40, 30, 20, (80, 10, 20))).moved(turn)
    (there,), (back,) = contact_patches(a, b), contact_patches(b, a)
    assert there.area == pytest.approx(600)
    assert np.allclose(there.normal, turn[:3, :3] @ [0, 0, 1])
    assert np.allclose(back.normal, -there.normal)
    assert np.allclose(there.centroid, back.centroid)


@settings(max_examples=50, deadline=None)
@given(st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda n: math.hypot(*n) > 0.1))
def test_across_is_a_right_handed_frame(rough):
    normal = np.array(rough) / math.hypot(*rough)
    frame = np.stack([*across(normal), normal])
    assert np.allclose(frame @ frame.T, np.eye(3), atol=1e-12)
    assert np.linalg.det(frame) == pytest.approx(1)
