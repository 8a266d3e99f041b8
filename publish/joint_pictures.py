"""Pictures of a joint by itself: its members drawn apart the way they come apart, and closed, with what is hidden."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from model.cache import kept
from model.frames import Vector, location, placing
from model.joint_samples import JointSample, joint_sample
from model.joints_alike import AlikeJoints, joints_alike
from model.kernel import placed
from model.loose_bodies import LooseSolid
from model.meshes import Mesh, mesh_of
from model.piece import Piece
from publish.drawing.box import around_points
from publish.drawing.clipping import inside_parts
from publish.drawing.view import Axes, View, axes_of
from publish.explode import moved_mesh
from publish.joint_sections import JointSectionView, joint_section_view
from publish.looks import PLAIN_WOOD, tint_of
from publish.pictures import Pictorial, guide_runs
from publish.project import view
from publish.shade import Picture, scene_box, tint

PIXELS = 620  # along the longer side of a picture
LOOK = 150  # pixels across, to judge a view
WAYS = (0.52, 1.0, 0.62)  # how far a view looks from aside, from the front and from above
SEES_OUT = (
    0.2,
    0.75,
)  # cosines of the way out to the viewer's: the mouth is seen, and the way out is not foreshortened
NEAR_SEAT = 1.5  # mm: hidden lines so near to where the members meet are drawn
BETTER = 1.15  # times as much has to be seen for a view from a less usual side
CROSSING = 0.5  # cosine: driven across the way in
DRIVEN = 0.8  # of its length a peg stands out
WIDER = (1.0, 1.7)  # times the usual way apart


@dataclass(frozen=True)
class JointPicture:
    """A distinct joint, its two pictures and its section; the member that goes in is the first in all of them."""

    alike: AlikeJoints
    apart: Pictorial
    closed: Pictorial
    section: JointSectionView | None


def joint_pictures(piece: Piece) -> tuple[JointPicture, ...]:
    """Of every distinct joint of the piece."""
    return tuple(_pictured(piece, joint_sample(piece, alike)) for alike in joints_alike(piece))


def _pictured(piece: Piece, sample: JointSample) -> JointPicture:
    joint = sample.alike.shown
    colours = [tint_of(piece.parts[name].spec) for name in (joint.a, joint.b)]
    own = [mesh_of(sample.of), mesh_of(sample.into)]
    axes, away = kept("side of a joint", lambda: (own, sample.away, sample.seat), lambda: _best_view(own, sample))
    ways = [away, np.zeros(3), *(_loose_way(one, away) for one in sample.loose)]
    bodies = [sample.of, sample.into, *(one.solid for one in sample.loose)]
    meshes = [*own, *(one.mesh for one in sample.loose)]
    colours += [PLAIN_WOOD] * len(sample.loose)
    moved = [moved_mesh(mesh, way) for mesh, way in zip(meshes, ways, strict=True)]
    apart = [placed(body, location(placing(np.eye(3), way))) for body, way in zip(bodies, ways, strict=True)]
    names = (joint.a, joint.b)
    lines = view(apart, axes.towards, axes.right)
    picture = _tinted(moved, colours, axes, lines)
    guides = guide_runs(picture, _mouth(sample).tolist(), away, np.zeros(3))
    hidden = np.concatenate([sample.seat, *(one.mesh.vertices for one in sample.loose)])
    closed = _near(view(bodies, axes.towards, axes.right, hidden=True), hidden)
    return JointPicture(
        sample.alike,
        Pictorial(lines, picture, names, tuple(guides), shifts={joint.a: away}),
        Pictorial(closed, _tinted(meshes, colours, axes, closed), names),
        joint_section_view(piece, sample),
    )


def _loose_way(one: LooseSolid, away: Vector) -> Vector:
    """How far a loose piece is drawn from its place: half-way between the members.

    What is driven across the way in, a peg, stands out of the hole it is driven into.
    """
    own = np.array(one.body.way)
    crosses = abs(float(own @ away)) < CROSSING * float(np.linalg.norm(own) * np.linalg.norm(away))
    return -own * DRIVEN if one.body.diameter and crosses else away / 2


def _tinted(meshes: Sequence[Mesh], colours: Sequence[tuple[float, float, float]], axes: Axes, lines: View) -> Picture:
    box = lines.box.grown(1.0)
    return tint(meshes, colours, axes.towards, axes.right, PIXELS / max(box.width, box.height), box)


def _mouth(sample: JointSample) -> Vector:
    """Where the guide line ends: the middle of the seat, on the side on which it opens."""
    out = sample.away / np.linalg.norm(sample.away)
    heights = sample.seat @ out
    middle: Vector = sample.seat.mean(axis=0)
    return middle + out * float(heights.max() - middle @ out)


def _best_view(meshes: Sequence[Mesh], sample: JointSample) -> tuple[Axes, Vector]:
    """The view, and the way apart (mm), that show most of both halves: the usual ones unless others show much more."""
    out = sample.away / np.linalg.norm(sample.away)
    best, most = None, 0.0
    for wider in WIDER:
        away = sample.away * wider
        for axes in _views(out):
            seen = _seen(meshes, axes, away, sample)
            if best is None or seen > BETTER * most:
                best, most = (axes, away), seen
    assert best is not None
    return best


def _views(out: Vector) -> Iterator[Axes]:
    """Views from the eight corners, the usual first: from the right front above; the piece stands upright in each."""
    aside, ahead, up = WAYS
    every = [
        np.array([across * x, -front * y, above * up])
        for above, front, across in product((1, -1), (1, -1), (1, -1))
        for x, y in ((aside, ahead), (ahead, aside))
    ]
    fit = [way for way in every if SEES_OUT[0] <= float(way @ out) / float(np.linalg.norm(way)) <= SEES_OUT[1]]
    for way in fit or every:
        yield axes_of(way, np.cross([0.0, 0.0, 1.0], way))


def _seen(meshes: Sequence[Mesh], axes: Axes, away: Vector, sample: JointSample) -> float:
    """How much of each half of the joint is seen: the lesser of both, mm2 in the view."""
    halves = [part for mesh in meshes for part in _split(mesh, sample)]
    parts = [moved_mesh(part, away) for part in halves[:2]] + halves[2:]
    box = scene_box(parts, axes)
    finer = LOOK / max(box.width, box.height)
    picture = tint(parts, [(1.0, 1.0, 1.0)] * len(parts), axes.towards, axes.right, finer, box)
    return min(picture.count(0), picture.count(2)) / finer**2


def _split(mesh: Mesh, sample: JointSample) -> tuple[Mesh, Mesh]:
    """The triangles of a member that lie in the seat, and the rest."""
    low, high = sample.seat.min(axis=0) - NEAR_SEAT, sample.seat.max(axis=0) + NEAR_SEAT
    inside = ((mesh.corners >= low) & (mesh.corners <= high)).all(axis=(1, 2))
    return _some(mesh, inside), _some(mesh, ~inside)


def _some(mesh: Mesh, which: np.ndarray) -> Mesh:
    return Mesh(mesh.vertices, mesh.triangles[which], mesh.face[which], mesh.normals[which], mesh.flat)


def _near(seen: View, seat: Vector) -> View:
    """A view with those hidden lines alone that lie where the members meet."""
    window = around_points(seen.at(corner) for corner in seat).grown(NEAR_SEAT)
    strokes = [s for s in seen.strokes if s.kind != "hidden"]
    for stroke in seen.strokes:
        shape = stroke.shape
        if stroke.kind == "hidden":
            strokes += [replace(stroke, shape=part) for part in inside_parts(shape, window, 0.0)]
    return View(seen.axes, tuple(strokes), seen.box)
