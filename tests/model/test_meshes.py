import math

import cadquery as cq
import numpy as np
import pytest
import trimesh

from model.frames import matrix_of
from model.meshes import mesh_of


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def as_trimesh(mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)


def test_box_is_exact():
    mesh = mesh_of(box(30, 20, 10))
    assert len(mesh.vertices) == 8  # Euler: a cuboid has 8 corners, 12 triangles
    assert len(mesh.triangles) == 12
    assert mesh.volume == pytest.approx(6000, rel=1e-12)
    assert mesh.flat.all()
    assert np.allclose(mesh.box, [[0, 0, 0], [30, 20, 10]])


def test_normals_point_out_and_agree_with_trimesh():
    mesh = mesh_of(box(30, 20, 10).cut(box(10, 10, 20, (5, 5, -5))))
    other = as_trimesh(mesh)
    assert other.is_watertight
    assert other.is_winding_consistent
    assert np.allclose(mesh.normals, other.face_normals, atol=1e-9)
    assert mesh.volume == pytest.approx(6000 - 1000)
    assert other.volume == pytest.approx(mesh.volume)


def test_round_body_is_inside_its_tolerance():
    mesh = mesh_of(cq.Solid.makeCylinder(10, 50), tolerance=0.05)
    exact = math.pi * 100 * 50
    # a chord polygon with sagitta s loses at most about 4 s / (3 r) of the circle (closed formula)
    assert exact * (1 - 4 * 0.05 / 30) <= mesh.volume < exact
    assert as_trimesh(mesh).is_watertight
    assert mesh.flat.sum() == 2


def test_mesh_does_not_depend_on_an_earlier_one():
    solid = cq.Solid.makeCylinder(10, 50)
    coarse = len(mesh_of(solid, 0.5, 0.5).triangles)
    assert len(mesh_of(solid, 0.01, 0.05).triangles) > coarse
    assert len(mesh_of(solid, 0.5, 0.5).triangles) == coarse


def test_manifold_holds_the_same_volume():
    mesh = mesh_of(box(30, 20, 10).cut(cq.Solid.makeCylinder(4, 30, cq.Vector(15, 10, -5))))
    assert mesh.manifold.volume() == pytest.approx(mesh.volume, rel=1e-9)
    assert mesh.manifold.genus() == 1  # one through hole


def test_moved_agrees_with_the_kernel():
    solid = box(30, 20, 10)
    location = cq.Location(cq.Vector(5, -7, 11), cq.Vector(1, 2, 3), 40)
    moved, placed = mesh_of(solid).moved(matrix_of(location)), mesh_of(solid.moved(location))
    assert np.allclose(moved.box, placed.box, atol=1e-9)
    assert moved.volume == pytest.approx(6000)


def test_mirrored_mesh_stays_turned_outside_out():
    mirror = np.diag([-1.0, 1.0, 1.0, 1.0])
    mesh = mesh_of(box(30, 20, 10)).moved(mirror)
    assert mesh.volume == pytest.approx(6000)
    assert np.allclose(mesh.normals, as_trimesh(mesh).face_normals)


def test_solid_already_placed_is_meshed_where_it_stands():
    placed = box(1, 2, 3).moved(cq.Location(cq.Vector(100, 0, 0)))
    assert np.allclose(mesh_of(placed).box, [[100, 0, 0], [101, 2, 3]])
