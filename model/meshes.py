"""Solids as triangles: what overlap, travel, contact and shading are worked out on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import cadquery as cq
import manifold3d
import numpy as np
import numpy.typing as npt
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.BRepTools import BRepTools
from OCP.GeomAbs import GeomAbs_Plane
from OCP.TopAbs import TopAbs_FACE, TopAbs_REVERSED
from OCP.TopExp import TopExp
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Face
from OCP.TopTools import TopTools_IndexedMapOfShape
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from model.brep import carried_from, content
from model.cache import kept
from model.once import once

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

SAME_POINT = 1e-6  # mm; nodes of neighbouring faces closer than this are one vertex


@dataclass(frozen=True)
class Mesh:
    """A closed triangle mesh, mm, triangles turning left seen from outside.

    vertices: N x 3; triangles: M x 3 vertex numbers; face: M, the solid's face each triangle lies on;
    normals: M x 3 unit vectors pointing out (all alike on a flat face); flat: F, whether a face is plane.
    """

    vertices: Floats
    triangles: Ints
    face: Ints
    normals: Floats
    flat: npt.NDArray[np.bool_]

    @cached_property
    def corners(self) -> Floats:
        """M x 3 x 3: the corner points of every triangle."""
        return self.vertices[self.triangles]

    @cached_property
    def box(self) -> Floats:
        """2 x 3: lowest and highest coordinates."""
        return np.array([self.vertices.min(axis=0), self.vertices.max(axis=0)])

    @property
    def volume(self) -> float:
        """Volume in mm3, by the divergence theorem."""
        a, b, c = np.moveaxis(self.corners - self.vertices[0], 1, 0)
        return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)

    @cached_property
    def manifold(self) -> manifold3d.Manifold:
        """The same body for boolean work."""
        mesh = manifold3d.Mesh64(vert_properties=self.vertices, tri_verts=self.triangles.astype(np.uint64))
        mesh.merge()
        return manifold3d.Manifold(mesh)

    def moved(self, matrix: Floats) -> Mesh:
        """The mesh carried by a 4 x 4 rigid `matrix`; a mirroring one (determinant -1) keeps it turned outside out."""
        turn, shift = matrix[:3, :3], matrix[:3, 3]
        triangles = self.triangles if np.linalg.det(turn) > 0 else self.triangles[:, ::-1].copy()
        return Mesh(self.vertices @ turn.T + shift, triangles, self.face, self.normals @ turn.T, self.flat)


def mesh_of(solid: cq.Shape, tolerance: float = 0.05, angle: float = 0.2) -> Mesh:
    """The triangles of `solid`; flat faces exactly, curved ones within `tolerance` mm and `angle` radians a facet."""
    return kept("mesh", lambda: (content(solid), tolerance, angle), lambda: _meshed(solid, tolerance, angle))


def _meshed(solid: cq.Shape, tolerance: float, angle: float) -> Mesh:
    # an earlier, finer mesh would be used again: the result must not depend on what was done before
    BRepTools.Clean_s(solid.wrapped)
    BRepMesh_IncrementalMesh(solid.wrapped, tolerance, False, angle, False)
    nodes: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    face_numbers: list[int] = []
    flat: list[bool] = []
    for number, face in enumerate(_faces(solid)):
        of_face = _face_triangles(face, nodes)
        triangles += of_face
        face_numbers += [number] * len(of_face)
        flat.append(BRepAdaptor_Surface(face, False).GetType() == GeomAbs_Plane)
    vertices, renumbered = _joined(np.array(nodes, dtype=np.float64))
    return _finished(
        vertices,
        renumbered[np.array(triangles, dtype=np.int64)],
        np.array(face_numbers, dtype=np.int64),
        np.array(flat, dtype=np.bool_),
    )


@once
def mesh_kept(solid: cq.Shape) -> Mesh:
    """The triangles of `solid`, kept with it; those of a solid that was carried here are carried too."""
    source = carried_from(solid)
    return mesh_of(solid) if source is None else mesh_kept(source[0]).moved(source[1])


def _faces(solid: cq.Shape) -> list[TopoDS_Face]:
    """Every face once, in the order of the kernel."""
    found = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(solid.wrapped, TopAbs_FACE, found)
    return [TopoDS.Face_s(found.FindKey(n)) for n in range(1, found.Extent() + 1)]


def _face_triangles(face: TopoDS_Face, nodes: list[tuple[float, float, float]]) -> list[tuple[int, int, int]]:
    """Triangles of one face, its nodes appended to `nodes`."""
    placed = TopLoc_Location()
    found = BRep_Tool.Triangulation_s(face, placed)
    if found is None:
        return []
    first = len(nodes) - 1
    points = [found.Node(i) for i in range(1, found.NbNodes() + 1)]
    if not placed.IsIdentity():
        trsf = placed.Transformation()
        points = [point.Transformed(trsf) for point in points]
    nodes += [(point.X(), point.Y(), point.Z()) for point in points]
    corners = [found.Triangle(i).Get() for i in range(1, found.NbTriangles() + 1)]
    if face.Orientation() == TopAbs_REVERSED:
        return [(first + a, first + c, first + b) for a, b, c in corners]
    return [(first + a, first + b, first + c) for a, b, c in corners]


def _joined(nodes: Floats) -> tuple[Floats, Ints]:
    """Nodes with those at the same place made one, and the new number of each old node."""
    pairs = cKDTree(nodes).query_pairs(SAME_POINT, output_type="ndarray")
    links = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(nodes), len(nodes)))
    _, label = connected_components(links, directed=False)
    _, first, renumbered = np.unique(label, return_index=True, return_inverse=True)
    return nodes[first], renumbered.astype(np.int64)


def _finished(vertices: Floats, triangles: Ints, face: Ints, flat: npt.NDArray[np.bool_]) -> Mesh:
    """The mesh with its normals; triangles that joining made into lines are dropped."""
    kept = (
        (triangles[:, 0] != triangles[:, 1])
        & (triangles[:, 1] != triangles[:, 2])
        & (triangles[:, 2] != triangles[:, 0])
    )
    triangles, face = triangles[kept], face[kept]
    a, b, c = np.moveaxis(vertices[triangles], 1, 0)
    turned = np.cross(b - a, c - a)
    # slivers of a flat face have no trustworthy normal of their own: take the whole face's
    of_face = np.zeros((len(flat), 3))
    np.add.at(of_face, face, turned)
    turned = np.where(flat[face][:, None], of_face[face], turned)
    length = np.linalg.norm(turned, axis=1, keepdims=True)
    return Mesh(vertices, triangles, face, turned / np.where(length > 0, length, 1.0), flat)
