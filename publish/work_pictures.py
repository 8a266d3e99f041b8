"""Pictures of work on one part: the faces that the work makes in a colour of their own, from where they are seen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from model.frames import Vector, axis_vector, side_vector
from model.meshes import Mesh
from model.piece import Feature, Part
from publish.looks import tint_of
from publish.pictures import SMALL_PIXELS, Pictorial, Spot, alone
from publish.shade import Colour, tint

CUT: Colour = (0.86, 0.36, 0.12)  # dark enough to be told from every wood in black and white
NEAR = 0.6  # mm: what lies in the box of a cut, roughly
ON_THE_BLANK = 0.1  # mm from the sides of the blank: was there before
SLANT, LARGER = 0.12, 1.4  # a cut into a leaning part runs out of its box by a little
FACES = ("sloped end", "sloped edge")  # cuts that are a whole face, with a point on it and no size
LOOK = 160  # pixels across, to judge a view
BETTER = 1.6  # times as much to be seen before another side is taken


def worked(part: Part, operations: Iterable[str], usual: Pictorial) -> Pictorial:
    """The part with what the operations made on it marked; as it is usually shown, unless most is on its far sides."""
    names = set(operations)
    features = [f for f in part.features if f.operation is not None and f.operation.name in names]
    rest, marked = _split(part, features)
    axes = usual.tint.axes
    towards, right = np.array(axes.towards), np.array(axes.right)
    sides = [(towards, right), *_other_sides(part, towards, right)]
    seen = [_marked_seen([rest, marked], *side) for side in sides]
    best = int(np.argmax(seen))
    if seen[best] < BETTER * max(seen[0], 1):
        best = 0
    made = usual if best == 0 else alone(part, *sides[best])
    box = made.box
    picture = tint(
        [rest, marked], [tint_of(part.spec), CUT], *sides[best], SMALL_PIXELS / max(box.width, box.height), box
    )
    sized = [feature for feature in features if any(size.role == "size" for size in feature.sizes)]
    spots = tuple(_spot(picture.axes.at(c.point), feature) for feature in sized for c in feature.callouts)
    return replace(made, tint=picture, spots=spots)


def _other_sides(part: Part, towards: Vector, right: Vector) -> list[tuple[Vector, Vector]]:
    """Towards the viewer and the page's right, with the part rolled over its length: bottom up, back to front."""
    along, thick = np.abs(axis_vector(part.spec.runs)), np.abs(axis_vector(part.spec.thick))
    edge = 1.0 - along - thick
    length = along * np.sign(float(right @ along))
    return [(towards * (along + a * thick + b * edge), length * a * b) for a, b in ((-1, 1), (1, -1), (-1, -1))]


def _marked_seen(meshes: list[Mesh], towards: Vector, right: Vector) -> int:
    some = [mesh for mesh in meshes if len(mesh.triangles)]
    if len(some) < 2:
        return 0
    reach = float(np.ptp(np.vstack([mesh.box for mesh in some]), axis=0).max())
    return tint(some, [(1.0, 1.0, 1.0)] * 2, towards, right, LOOK / reach).count(1)


def _split(part: Part, features: list[Feature]) -> tuple[Mesh, Mesh]:
    """The triangles of a part: those of other faces, and those of the faces that the features made."""
    mesh = part.own_mesh
    low, high = mesh.box
    boxes = [box for feature in features if (box := _box(feature, part)) is not None]
    points = [np.array(c.point) for feature in features if _is_a_face(feature) for c in feature.callouts]
    chosen = np.zeros(len(mesh.triangles), dtype=bool)
    for face in np.unique(mesh.face):
        own = mesh.face == face
        corners = mesh.corners[own].reshape(-1, 3)
        flat = np.ptp(corners, axis=0) < ON_THE_BLANK
        outer = flat & ((np.abs(corners[0] - low) < ON_THE_BLANK) | (np.abs(corners[0] - high) < ON_THE_BLANK))
        if outer.any():
            continue
        chosen |= own & (any(_within(corners, box) for box in boxes) or any(_lies_on(corners, p) for p in points))
    return _only(mesh, ~chosen), _only(mesh, chosen)


def _is_a_face(feature: Feature) -> bool:
    return feature.operation is not None and feature.operation.name in FACES


def _within(corners: Vector, box: tuple[Vector, Vector]) -> bool:
    """Whether a face (n x 3, its corners) is one of a cut: its middle in the box of the cut, and not much larger."""
    low, high = box
    middle, reach = corners.mean(axis=0), float(np.ptp(corners, axis=0).max())
    room = NEAR + SLANT * (high - low)
    return bool(((middle > low - room) & (middle < high + room)).all()) and reach < LARGER * float((high - low).max())


def _lies_on(corners: Vector, point: Vector) -> bool:
    """Whether a point lies on a flat face."""
    normal = np.cross(corners[1] - corners[0], corners[2] - corners[0])
    size = float(np.linalg.norm(normal))
    level = size > 0 and abs(float((point - corners[0]) @ normal)) < NEAR * size
    return level and bool(((point > corners.min(axis=0) - NEAR) & (point < corners.max(axis=0) + NEAR)).all())


def _only(mesh: Mesh, which: npt.NDArray[np.bool_]) -> Mesh:
    return Mesh(mesh.vertices, mesh.triangles[which], mesh.face[which], mesh.normals[which], mesh.flat)


def _box(feature: Feature, part: Part) -> tuple[Vector, Vector] | None:
    """The box of what a feature cut, in the standing frame: from its sizes, and as deep as it goes."""
    sizes = [size for size in feature.sizes if size.role in ("size", "position")]
    cut = [size for size in sizes if size.role == "size"] if feature.kind != "taper" else sizes
    points = [np.array(point) for size in cut for point in (size.start, size.end)]
    points += [np.array(callout.point) for callout in feature.callouts]
    if not cut or not points:
        return None
    settings = feature.operation.settings if feature.operation is not None else {}
    deep = settings.get("deep", settings.get("long"))
    reach = float(deep) if isinstance(deep, float) else float(max(part.over_all[1:]))
    inwards = [p - side_vector(callout.face) * reach for p in points for callout in feature.callouts]
    every = np.array([*points, *(inwards if feature.kind not in ("tenon", "tongue", "taper") else [])])
    return every.min(axis=0), every.max(axis=0)


def _spot(at: tuple[float, float], feature: Feature) -> Spot:
    """Where a cut is in the view, and how large: what is too small to be made out gets a ring."""
    long = max((size.value for size in feature.sizes if size.role == "size"), default=0.0)
    return at, long
