"""Pictures of work on one part: the faces that the work makes in a colour of their own, from where they are seen.

Each setting is told at the cut it is for: a picture keeps where its cuts are, and which settings made them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt
from scipy.ndimage import binary_dilation, distance_transform_edt, find_objects, label

from model.cut_faces import WHOLE_END, faces_eased, faces_made
from model.frames import Vector, axis_vector, side_vector
from model.meshes import Mesh
from model.piece import Feature, Part
from model.set_ups import SETTINGS, Setting
from plans.sides import Side
from publish.looks import tint_of
from publish.pictures import SMALL_PIXELS, Cut, Pictorial, Spot, alone
from publish.shade import Colour, Picture, anchor, tint

CUT: Colour = (0.86, 0.36, 0.12)  # dark enough to be told from every wood in black and white
LOOK = 300  # pixels across, to judge a view
BETTER = 1.6  # times as much to be seen before another side is taken
EASED = ("round over", "chamfer")
THIN = 3.0  # pixels from its middle to its rim
BROADER = 2  # pixels: an eased arris, or a box joint, is a hair's breadth at the scale of these pictures
SHADE = 0.85  # how light it is
ASTRAY = 12  # pixels that the middle of a cut may lie off what is seen of it
SEEN = 4  # pixels: fewer are chance
Group = tuple[tuple[Setting, ...], list[int]]  # settings, and the numbers of the features they made


def worked(part: Part, operations: Iterable[str], usual: Pictorial) -> Pictorial:
    """The part with what the operations made on it marked; as it is usually shown, unless most is on its far sides."""
    groups = _groups(part, set(operations))
    meshes = _split(part, groups)
    axes = usual.tint.axes
    towards, right = np.array(axes.towards), np.array(axes.right)
    sides = [(towards, right), *_other_sides(part, towards, right)]
    facing = [part.features[n].callouts[0].face for _, numbers in groups for n in numbers]
    seen = [_marked_seen(meshes, *side) + _turned_to(facing, side[0]) for side in sides]
    best = int(np.argmax(seen))
    if seen[best] < BETTER * max(seen[0], 1):
        best = 0
    made = usual if best == 0 else alone(part, *sides[best])
    box = made.box
    colours = [tint_of(part.spec), *[CUT] * len(groups)]
    picture = tint(meshes, colours, *sides[best], SMALL_PIXELS / max(box.width, box.height), box)
    for number in range(1, len(meshes)):
        picture = _broader(picture, number)
    cuts = tuple(_cut(picture, n, part, group) for n, group in enumerate(groups, start=1))
    spots = tuple(spot for n, group in enumerate(groups, start=1) for spot in _spots(picture, n, part, group))
    return replace(made, tint=picture, spots=spots, cuts=cuts)


def _groups(part: Part, names: set[str]) -> list[Group]:
    """The features that the operations made, those with one setting together; all that eases arrises together."""
    found: dict[object, Group] = {}
    for n, feature in enumerate(part.features):
        if feature.operation is None or feature.operation.name not in names:
            continue
        take = SETTINGS[feature.operation.name]
        settings = tuple(take(part, feature)) if take is not None else ()
        key: object = "eased" if feature.kind in EASED else tuple(replace(one, places=1) for one in settings)
        known, numbers = found.get(key, ((), []))
        found[key] = ((*known, *(one for one in settings if one not in known)), [*numbers, n])
    return list(found.values())


def _split(part: Part, groups: Sequence[Group]) -> list[Mesh]:
    """The triangles of a part: those of other faces, then those of the faces that each group made."""
    if any(part.features[n].kind in EASED for _, numbers in groups for n in numbers):
        mesh = part.own_eased_mesh
        made = [faces_eased(part)]
    else:
        mesh = part.own_mesh
        faces = faces_made(part)
        made = [frozenset().union(*(faces[n] for n in numbers)) for _, numbers in groups]
    of = np.full(len(mesh.triangles), 0)
    for number, own in enumerate(made, start=1):
        of[np.isin(mesh.face, list(own))] = number
    return [_only(mesh, of == number) for number in range(len(made) + 1)]


def _only(mesh: Mesh, which: npt.NDArray[np.bool_]) -> Mesh:
    return Mesh(mesh.vertices, mesh.triangles[which], mesh.face[which], mesh.normals[which], mesh.flat)


def _other_sides(part: Part, towards: Vector, right: Vector) -> list[tuple[Vector, Vector]]:
    """Towards the viewer and the page's right, with the part rolled over its length: bottom up, back to front."""
    along, thick = np.abs(axis_vector(part.spec.runs)), np.abs(axis_vector(part.spec.thick))
    edge = 1.0 - along - thick
    length = along * np.sign(float(right @ along))
    return [(towards * (along + a * thick + b * edge), length * a * b) for a, b in ((-1, 1), (1, -1), (-1, -1))]


def _marked_seen(meshes: Sequence[Mesh], towards: Vector, right: Vector) -> int:
    """Pixels of all marked faces."""
    reach = float(np.ptp(np.vstack([mesh.box for mesh in meshes if len(mesh.vertices)]), axis=0).max())
    picture = tint(meshes, [(1.0, 1.0, 1.0)] * len(meshes), towards, right, LOOK / reach)
    return int((picture.ids > 0).sum())


def _turned_to(faces: Sequence[Side], towards: Vector) -> int:
    """How many cuts are made from a side that the viewer sees: it tells where all are too small to be seen at all."""
    return sum(float(side_vector(face) @ towards) > 0.1 for face in faces)


def _broader(picture: Picture, number: int) -> Picture:
    """With what is marked a little broader where it is a hair's breadth, over the part alone."""
    own = picture.ids == number
    if not own.any() or float(distance_transform_edt(own).max()) > THIN:
        return picture
    more = binary_dilation(own, iterations=BROADER) & (picture.ids == 0)
    rgb, ids = picture.rgb.copy(), picture.ids.copy()
    rgb[more] = np.round(np.array(CUT) * 255 * SHADE).astype(np.uint8)
    ids[more] = number
    return replace(picture, rgb=rgb, ids=ids)


def _cut(picture: Picture, number: int, part: Part, group: Group) -> Cut:
    """Where a group of cuts is told: deep inside what is seen of it, else where it lies behind."""
    settings, numbers = group
    seen = picture.count(number) >= SEEN
    at = anchor(picture, number) if seen else None
    if at is None:
        feature = part.features[numbers[0]]
        at = picture.axes.at(feature.callouts[0].point)
    return Cut(at, settings, seen)


def _spots(picture: Picture, number: int, part: Part, group: Group) -> list[Spot]:
    """Where the cuts of a group are in the view, and how large: what is too small to be made out gets a ring."""
    spots = [spot for n in group[1] for spot in _of_feature(picture, part.features[n])]
    stretches, count = label(picture.ids == number, np.ones((3, 3)))
    if not count:
        return spots
    large = [max(s.stop - s.start for s in slices) / picture.grid.pixels_per_mm for slices in find_objects(stretches)]
    away, nearest = distance_transform_edt(stretches == 0, return_indices=True)
    shown = []
    for at, long in spots:
        column, row = (
            int(np.clip(round(float(place[0])), 0, most - 1))
            for place, most in zip(
                picture.grid.pixels(np.array([at[0]]), np.array([at[1]])), reversed(stretches.shape), strict=True
            )
        )
        there = stretches[tuple(nearest[:, row, column])] if away[row, column] < ASTRAY else 0
        shown.append((at, max(long, large[there - 1]) if there else long))
    return shown


def _of_feature(picture: Picture, feature: Feature) -> list[Spot]:
    settings = feature.operation.settings if feature.operation is not None else {}
    across = settings.get("diameter")
    sized = [size.value for size in feature.sizes if size.role == "size"]
    if feature.operation is not None and feature.operation.name in WHOLE_END:
        return []
    long = across if isinstance(across, float) else max(sized, default=0.0)
    if not long:
        return []
    return [(picture.axes.at(point), long) for callout in feature.callouts for point in (callout.point, *callout.row)]
