"""The picture of a step of assembly: what is there quiet, what is added tinted and apart along its way, glue hatched.

It is drawn from the side on which most of every added part is seen, turned over where what is added comes from below.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model.cache import kept
from model.clamping import is_pulled, pull_of
from model.frames import Vector
from model.piece import JointMade, Piece, Point
from model.stages import Move, Stage
from publish.drawing.box import Point as Flat
from publish.drawing.view import axes_of
from publish.explode import moved_mesh, shifts_of_stage
from publish.glue_marks import glue_seen, hatched
from publish.pictures import RIGHT, TOWARDS, Arrow, Pictorial, pictorial
from publish.shade import Picture, anchor, scene_box, tint

ENOUGH, LEAST = 0.5, 0.25  # share of an added part's area that is to be seen, and that has to be
LOOK = 260  # pixels across, to judge a view
WIDER = (1.0, 1.7, 3.0, 5.0)  # times the usual way apart, where more is needed to see everything
DOWN = 0.9  # cosine: comes off downwards
ARROW = (0.07, 0.16)  # least and most length of an arrow, as a share of the picture
CLAMP = 0.09


@dataclass(frozen=True)
class Pose:
    """A side to look from, and what is said of it."""

    said: str
    towards: Point
    right: Point


FRONT = Pose("", TOWARDS, RIGHT)
TURNED = Pose("Turned over: its underside is up.", (TOWARDS[0], -TOWARDS[1], -TOWARDS[2]), (RIGHT[0], -RIGHT[1], 0.0))
POSES = (
    FRONT,
    Pose("Seen from the front, from the left.", (-TOWARDS[0], TOWARDS[1], TOWARDS[2]), (RIGHT[0], -RIGHT[1], 0.0)),
    Pose("Seen from behind.", (TOWARDS[0], -TOWARDS[1], TOWARDS[2]), (-RIGHT[0], RIGHT[1], 0.0)),
    Pose("Seen from high above.", (0.3, -0.6, 1.4), (1.0, 0.5, 0.0)),
)
Link = tuple[str, str, Point]


def stage_picture(piece: Piece, stage: Stage, links: Sequence[Link]) -> Pictorial:
    """What is there stays quiet; what is added is tinted. Loose parts joined for the first time are all new."""
    moved = {name for move in stage.moves for name in move.parts}
    new = moved if _stands(piece, stage) else set(stage.parts)
    here = set(stage.parts)
    pose, wider = best_pose(piece, stage, new)
    shifts = shifts_of_stage(piece, stage, wider)
    shown = [link for link in links if link[0] in here and link[1] in here]
    made = pictorial(
        piece,
        stage.parts,
        shifts,
        frozenset(here - new),
        links=shown,
        fitted="before the last",
        towards=pose.towards,
        right=pose.right,
    )
    joints = [joint for joint in piece.joints if {joint.a, joint.b} <= here]
    marked = glue_seen(piece, made.tint, stage.parts, shifts, joints)
    arrows = tuple(arrow for move in stage.moves if (arrow := _way_in(made, move, shifts)) is not None)
    return replace(
        made,
        tint=replace(made.tint, rgb=hatched(made.tint, marked)),
        arrows=arrows,
        clamps=_clamps(piece, made, joints, shifts),
        said=pose.said,
        shifts=shifts,
        hatched=bool(marked.any()),
    )


def best_pose(piece: Piece, stage: Stage, new: set[str]) -> tuple[Pose, float]:
    """The first pose, and the least way apart, in which enough of everything new is seen; else the best there is."""
    return kept(
        "pose",
        lambda: (stage, sorted(new), [piece.parts[name].mesh for name in stage.parts]),
        lambda: _best_pose(piece, stage, new),
    )


def _best_pose(piece: Piece, stage: Stage, new: set[str]) -> tuple[Pose, float]:
    poses = (TURNED, *POSES) if _from_below(stage) else POSES
    added = _added(stage, new)
    best, share = (poses[0], 1.0), -1.0
    for wider in WIDER:
        shifts = shifts_of_stage(piece, stage, wider)
        for pose in poses:
            seen = least_seen(piece, stage.parts, shifts, added, pose)
            if seen >= ENOUGH:
                return pose, wider
            if seen > share + 0.05:
                best, share = (pose, wider), seen
    return best


def _added(stage: Stage, new: set[str]) -> list[set[str]]:
    """What is added: single parts, and what was put together before as one."""
    together = [set(move.parts) for move in stage.moves if len(move.parts) > 1]
    within = {name for group in together for name in group}
    return [*together, *({name} for name in new if name not in within)]


def least_seen(
    piece: Piece, names: Sequence[str], shifts: Mapping[str, Vector], added: Sequence[set[str]], pose: Pose
) -> float:
    """The least share that is seen of anything added, of what would be if nothing stood before it."""
    meshes = [moved_mesh(piece.parts[name].mesh, shifts[name]) for name in names]
    box = scene_box(meshes, axes_of(pose.towards, pose.right))
    finer = LOOK / max(box.width, box.height)

    def drawn(some: Sequence[int]) -> Picture:
        return tint([meshes[n] for n in some], [(1.0, 1.0, 1.0)] * len(some), pose.towards, pose.right, finer, box)

    together = drawn(range(len(meshes)))
    shares = []
    for group in added:
        some = [n for n, name in enumerate(names) if name in group]
        alone = int((drawn(some).ids >= 0).sum())
        shares.append(sum(together.count(n) for n in some) / alone if alone else 0.0)
    return min(shares, default=1.0)


def _from_below(stage: Stage) -> bool:
    return bool(stage.moves) and all(move.path and move.path[-1].direction[2] < -DOWN for move in stage.moves)


def _stands(piece: Piece, stage: Stage) -> bool:
    """Whether the base was put together in an earlier stage (one part alone, or a heap, was not)."""
    base = set(stage.base)
    pairs = [{j.a, j.b} for j in piece.joints] + [{f.through, f.into} for f in piece.fixings]
    linked = {name for pair in pairs if pair <= base and len(pair) > 1 for name in pair}
    return len(base) > 1 and linked == base


def _way_in(made: Pictorial, move: Move, shifts: Mapping[str, Vector]) -> Arrow | None:
    """An arrow on what goes in, along its way home; none where it is not moved, or moves at the viewer."""
    spots = [(made.tint.count(n), anchor(made.tint, n)) for n, name in enumerate(made.names) if name in move.parts]
    area, start = max(spots, key=lambda spot: spot[0])
    run = _flat(made, -shifts[move.parts[0]])
    far = float(np.hypot(*run))
    size = max(made.box.width, made.box.height)
    if not area or start is None or far < 0.02 * size:
        return None
    long = min(max(0.6 * far, ARROW[0] * size), ARROW[1] * size)
    return start, (start[0] + run[0] / far * long, start[1] + run[1] / far * long)


def _clamps(
    piece: Piece, made: Pictorial, joints: Sequence[JointMade], shifts: Mapping[str, Vector]
) -> tuple[Arrow, ...]:
    """Two arrows for each way that clamps pull in this step, at the outermost places, pointing inwards."""
    ways: list[tuple[Vector, list[Vector]]] = []
    for joint in joints:
        if not is_pulled(piece, joint) or float(np.linalg.norm(shifts[joint.a] - shifts[joint.b])) < 1.0:
            continue
        pull = pull_of(piece, joint)
        ends = [_far_end(piece, joint.b, pull, joint, shifts), _far_end(piece, joint.a, -pull, joint, shifts)]
        for way, places in ways:
            if abs(float(way @ pull)) > DOWN:
                places += ends
                break
        else:
            ways.append((pull, ends))
    size = max(made.box.width, made.box.height)
    arrows = []
    for way, places in ways:
        for sign in (1.0, -1.0):
            tip = _at(made, max(places, key=lambda place, s=sign, w=way: float(place @ w) * s))  # type: ignore[misc]
            run = _flat(made, way * sign)
            far = float(np.hypot(*run))
            if far > 0.1:
                back = CLAMP * size / far
                arrows.append(((tip[0] + run[0] * back, tip[1] + run[1] * back), tip))
    return tuple(arrows)


def _far_end(piece: Piece, name: str, way: Vector, joint: JointMade, shifts: Mapping[str, Vector]) -> Vector:
    """Where a clamp stands on a part: level with the joint, on the far side, as it is drawn."""
    corners = piece.parts[name].mesh.vertices
    place = np.array(joint.point)
    beyond = float((corners @ way).max() - place @ way)
    return np.asarray(place + way * max(0.0, beyond) + shifts[name])


def _at(made: Pictorial, place: Vector) -> Flat:
    return made.tint.axes.at(place)


def _flat(made: Pictorial, way: Vector) -> Flat:
    """A way in the piece as it lies in the view."""
    return made.tint.axes.at(way)
