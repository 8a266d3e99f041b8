"""A joint cut through when it is closed: the plane that tells most of it, and what that cuts of its members.

The plane holds the way that one member reaches into the other, so that what is hidden there is seen; of planes that
tell as much, the one that shows thicknesses is taken, as a maker sets them out with a gauge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import manifold3d
import numpy as np
import numpy.typing as npt

from model.cuts import LEAST, TOUCHING, Cut, Stuff, stuff_of
from model.frames import Matrix, Vector, apply, axis_vector, matrix_of, side_vector, turn
from model.joint_samples import JointSample
from model.loose_bodies import loose_solids
from model.meshes import Mesh
from model.piece import Callout, Feature, Part, Piece, Size
from plans.sides import SIDES, Axis, third_axis

AROUND = (0.7, 9.0, 30.0)  # what is shown round the joint: times the thinner member, and its limits (mm)
SPARE = 0.8  # of that: a member that ends so soon beyond it is shown to its end
ON_OUTLINE = 0.3  # mm: ends of sizes lie on what is cut, the room for glue included
TRUE = 0.15  # mm by which a size may differ from what is drawn; a larger one is seen aslant
STEEPEST = 0.35  # how much nearer or further a sloping shoulder lies for each mm aside: 19 degrees
NEXT_TO_NOTHING = 0.03  # mm
SHORT = 0.5  # mm: shorter lines are steps of an arc
SAME_PLACE = 0.5  # mm between places where a plane is tried
SQUARE = 0.1  # cosine: a size runs along the page
ASIDE = (0.25, -0.25)  # of the joint, from its middle: elsewhere a screw may run through it
MIDDLE_IS_BETTER = 0.9  # of what is shown elsewhere: then the middle of the joint is cut
WAVE = (0.05, 0.5, 1.6)  # how far a break swings: as a share of its length, and its limits (mm)
WAVES = 24  # points along a break
ON_PART_SHEETS = {"peg hole", "saw cut"}  # many small sizes that a section of the joint would drown in
DEPTH_TOLD = {"mortise", "dowel hole", "biscuit slot"}  # from their mouth, by a callout alone
FAR = 1e4  # mm
DEEP = ("length", "depth")  # the last word of sizes that say how far one member reaches into the other
FROM_LEFT_BELOW, FROM_VIEWER = np.array([0.1, 0.4, 1.0]), np.array([0.52, -1.0, 0.62])


@dataclass(frozen=True)
class JointPlane:
    """A plane through a joint as it is looked at: a point on it, and unit vectors of the piece."""

    point: Vector
    towards: Vector
    right: Vector
    up: Vector

    @property
    def frame(self) -> Matrix:
        """From the piece to the plane, 4 x 4: x to the page's right, y up, z to the viewer, 0 in the plane."""
        frame = np.eye(4)
        frame[:3, :3] = np.array([self.right, self.up, self.towards])
        frame[2, 3] = -float(self.point @ self.towards)
        return frame

    def at(self, point: Vector) -> Vector:
        """Where a point of the piece falls in the plane (2)."""
        return np.array([float(point @ self.right), float(point @ self.up)])


@dataclass(frozen=True)
class JointCut(Cut):
    """What is cut of one body of a joint, near the joint: of a member, or of a loose piece."""

    name: str
    stuff: Stuff
    whole: manifold3d.CrossSection  # the same where nothing is broken off

    @cached_property
    def broken(self) -> list[npt.NDArray[np.bool_]]:
        """Of each step of each outline, whether it lies where the body is broken off."""
        whole = [np.asarray(ring) for ring in self.whole.to_polygons()]
        starts = np.concatenate(whole)
        ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in whole])
        middles = [(ring + np.roll(ring, -1, axis=0)) / 2 for ring in self.rings]
        return [_off(some, starts, ends) > NEXT_TO_NOTHING for some in middles]


@dataclass(frozen=True)
class SizeShown:
    """A size seen true in a section: of which part, and its two ends in the plane; `value` is mm.

    `size` is the part's own; None where the depth of a recess is told by its callout alone.
    """

    part: str
    value: float
    start: Vector
    end: Vector
    axis: int  # of the page, along which it is measured: 0 across it, 1 up it
    size: Size | None

    @property
    def says_how_deep(self) -> bool:
        """Whether it says how far one member reaches into the other."""
        return self.size is None or self.size.name.split()[-1] in DEEP


@dataclass(frozen=True)
class JointSection:
    """A joint closed and cut through: the member that goes in is the first of the cuts, loose pieces come last."""

    plane: JointPlane
    cuts: tuple[JointCut, ...]
    sizes: tuple[SizeShown, ...]


def joint_section(piece: Piece, sample: JointSample) -> JointSection | None:
    """The section of a joint that tells most; None where no plane through it cuts both members."""
    joint = sample.alike.shown
    members = (piece.parts[joint.a], piece.parts[joint.b])
    features = (sample.alike.of, sample.alike.into)
    loose = [(one.what, one.mesh, one.stuff) for one in loose_solids(joint)]
    best: JointSection | None = None
    most = (False, 0)
    for normal in _normals(members[0], sample.seat):
        found = _best_along(normal, sample, members, features, loose)
        if found is None:
            continue
        told = {round(size.value, 1) for size in found.sizes if size.size is None or _how_large(size.size)}
        worth = (any(size.says_how_deep for size in found.sizes), len(told))
        if best is None or worth > most:
            best, most = found, worth
    return best


def _normals(of: Part, seat: Vector) -> list[Vector]:
    """Square to the joint where it is longest first: that shows thicknesses."""
    axes: tuple[Axis, ...] = (third_axis(of.spec.runs, of.spec.thick), of.spec.runs, of.spec.thick)
    normals = [turn(matrix_of(of.at), axis_vector(axis)) for axis in axes]
    to_viewer = [normal if float(normal @ FROM_VIEWER) > 0 else -normal for normal in normals]
    return sorted(to_viewer, key=lambda normal: -round(float(np.ptp(seat @ normal))))


def _how_large(size: Size) -> bool:
    return size.role == "size" and not size.name.endswith("spacing")


_Loose = Sequence[tuple[str, Mesh, Stuff]]


def _best_along(
    normal: Vector,
    sample: JointSample,
    members: tuple[Part, Part],
    features: tuple[Sequence[Feature], Sequence[Feature]],
    loose: _Loose,
) -> JointSection | None:
    """The best section square to a direction: through the middle, or through something cut there."""
    best: JointSection | None = None
    most = (0, 0.0)
    for point in _places(normal, sample, members, features, loose):
        plane = _plane(normal, point, members[0])
        cuts = _cuts(plane, sample, members, loose)
        if cuts is None:
            continue
        sizes = tuple(sizes_shown(plane, cuts, members, features))
        worth = (len(sizes), _met(cuts))
        if best is None or worth[0] > most[0] or (worth[0] == most[0] and MIDDLE_IS_BETTER * worth[1] > most[1]):
            best, most = JointSection(plane, cuts, sizes), worth
    return best


def _places(
    normal: Vector,
    sample: JointSample,
    members: tuple[Part, Part],
    features: tuple[Sequence[Feature], Sequence[Feature]],
    loose: _Loose,
) -> list[Vector]:
    """Points through which a plane is tried: the middle of the joint, then what is told of and what is loose in it."""
    middle = sample.seat.mean(axis=0)
    low, high = float((sample.seat @ normal).min()), float((sample.seat @ normal).max())
    told = [
        apply(matrix_of(part.at), np.array(spot))
        for part, some in zip(members, features, strict=True)
        for feature in some
        for callout in feature.callouts
        for spot in _spots(callout)
    ]
    told += [mesh.box.mean(axis=0) for _, mesh, _ in loose]
    told += [middle + normal * (high - low) * share for share in ASIDE]
    heights = [float(middle @ normal)]
    for height in sorted((float(p @ normal) for p in told), key=lambda h: abs(h - heights[0])):
        if all(abs(height - other) > SAME_PLACE for other in heights):
            heights.append(height)
    return [middle + normal * (height - heights[0]) for height in heights]


def _spots(callout: Callout) -> list[Vector]:
    spots = [np.array(callout.point), *(np.array(point) for point in callout.row)]
    if callout.fills is not None:
        spots.append((np.array(callout.fills[0]) + np.array(callout.fills[1])) / 2)
    return spots


def _plane(normal: Vector, point: Vector, of: Part) -> JointPlane:
    """The plane with the members the right way up on the page; looked down on, the back is up."""
    ways = [turn(matrix_of(of.at), side_vector(side)) for side in SIDES]
    up = max((way for way in ways if abs(float(way @ normal)) < 0.5), key=lambda way: float(way @ FROM_LEFT_BELOW))
    return JointPlane(point, normal, np.cross(up, normal), up)


def _cuts(
    plane: JointPlane, sample: JointSample, members: tuple[Part, Part], loose: _Loose
) -> tuple[JointCut, ...] | None:
    """What is cut of both members and of what is loose between them; None where one is missed."""
    window = _window(plane, sample, members, [one for one in loose if _lies_in(plane, one[1])])
    found: list[JointCut] = []
    filled = [(what, _slice(mesh, plane), stuff) for what, mesh, stuff in loose]
    filled = [(what, section, stuff) for what, section, stuff in filled if section.area() > LEAST]
    for part in members:
        whole = _slice(part.mesh, plane)
        for _, section, _ in filled:
            whole = whole - section
        kept = _broken_off(whole, window)
        if kept.area() < LEAST:
            return None
        found.append(JointCut(kept, part.name, stuff_of(part), whole))
    found += [JointCut(cut, what, stuff, cut) for what, cut, stuff in filled if (cut ^ _box(*window)).area() > LEAST]
    return tuple(found)


def _slice(mesh: Mesh, plane: JointPlane) -> manifold3d.CrossSection:
    return mesh.moved(plane.frame).manifold.slice(0.0)


def _lies_in(plane: JointPlane, mesh: Mesh) -> bool:
    heights = (mesh.vertices - plane.point) @ plane.towards
    return bool(heights.min() < 0.0 < heights.max())


def _window(plane: JointPlane, sample: JointSample, members: tuple[Part, Part], loose: _Loose) -> tuple[Vector, Vector]:
    """What is shown: the seat, what is loose in it, and something round both; two corners in the plane."""
    bounds = [sample.seat, *(mesh.vertices for _, mesh, _ in loose)]
    seat = np.array([plane.at(corner) for some in bounds for corner in some])
    share, least, most = AROUND
    around = float(np.clip(share * min(part.over_all[2] for part in members), least, most))
    return seat.min(axis=0) - around, seat.max(axis=0) + around


def _broken_off(whole: manifold3d.CrossSection, window: tuple[Vector, Vector]) -> manifold3d.CrossSection:
    """What lies in the window, with a wavy end wherever it runs on beyond; what ends soon is shown to its end."""
    rings = [np.asarray(ring) for ring in whole.to_polygons()]
    if not rings:
        return whole
    points = np.concatenate(rings)
    size = window[1] - window[0]
    spare = SPARE * float(AROUND[1])
    kept = whole
    for axis in (0, 1):
        for end, sign in ((0, -1.0), (1, 1.0)):
            at = float(window[end][axis])
            beyond = float((points[:, axis] * sign).max()) - at * sign
            if beyond > spare:
                kept = kept ^ _half(kept, axis, sign, at, float(size[1 - axis]))
    return kept


def _half(section: manifold3d.CrossSection, axis: int, sign: float, at: float, size: float) -> manifold3d.CrossSection:
    """All that lies on the inner side of a wavy line across the page; it waves once over what it breaks."""
    low, high = np.full(2, -FAR), np.full(2, FAR)
    low[axis], high[axis] = at - 0.1, at + 0.1
    met = [np.asarray(ring) for ring in (section ^ _box(low, high)).to_polygons()]
    across = np.concatenate(met)[:, 1 - axis] if met else np.array([0.0, size])
    start, end = float(across.min()), float(across.max())
    share, least, most = WAVE
    swing = float(np.clip(share * (end - start), least, most))
    turns = np.linspace(0.0, 1.0, WAVES + 1)
    line = np.zeros((WAVES + 3, 2))
    line[:, 1 - axis] = [-FAR, *(start + turns * (end - start)), FAR]
    line[:, axis] = [at, *(at + swing * np.sin(2 * np.pi * turns)), at]
    back = line[[-1, 0]].copy()
    back[:, axis] = -sign * FAR
    return manifold3d.CrossSection([np.concatenate([line, back])], manifold3d.FillRule.NonZero)


def _box(low: Vector, high: Vector) -> manifold3d.CrossSection:
    corners = [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])]
    return manifold3d.CrossSection([np.array(corners)])


def _met(cuts: Sequence[JointCut]) -> float:
    """How long (mm) the bodies lie against each other in the section."""
    length = 0.0
    for n, one in enumerate(cuts):
        for other in cuts[:n]:
            grown = one.section.offset(TOUCHING, manifold3d.JoinType.Miter)
            length += (grown ^ other.section).area() / TOUCHING
    return length


def sizes_shown(
    plane: JointPlane, cuts: Sequence[JointCut], members: Sequence[Part], features: Sequence[Sequence[Feature]]
) -> Iterator[SizeShown]:
    """Every size of some features of each part that is seen true, at whose ends an outline lies."""
    corners = [_corners(cut, axis) for axis in (0, 1) for cut in cuts]
    told = [np.concatenate(corners[: len(cuts)]), np.concatenate(corners[len(cuts) :])]
    for part, some in zip(members, features, strict=True):
        matrix = matrix_of(part.at)
        for size, value, first, last in _measures(some):
            ends = [plane.at(apply(matrix, point)) for point in (first, last)]
            way = turn(matrix, np.array(last) - np.array(first) if size is None else axis_vector(size.along))
            flat = np.array([float(way @ plane.right), float(way @ plane.up)]) / float(np.linalg.norm(way))
            if min(abs(flat)) > SQUARE or max(abs(flat)) < 1 - SQUARE:
                continue
            axis = int(np.argmax(np.abs(flat)))
            off = abs(float((apply(matrix, first) - plane.point) @ plane.towards))
            found = _on_outlines(ends, axis, value, STEEPEST * off + ON_OUTLINE, told[axis])
            if found is not None:
                yield SizeShown(part.name, value, *found, axis, size)


_Measure = tuple[Size | None, float, Vector, Vector]


def _measures(features: Sequence[Feature]) -> Iterator[_Measure]:
    """The sizes of features, and the depths that callouts alone tell: from the mouth to the floor."""
    for feature in (feature for feature in features if feature.kind not in ON_PART_SHEETS):
        for size in feature.sizes:
            yield size, size.value, np.array(size.start), np.array(size.end)
        for callout in feature.callouts:
            deep = callout.values.get("deep")
            if isinstance(deep, float) and callout.what in DEPTH_TOLD:
                inward = -side_vector(callout.face)
                for spot in (callout.point, *callout.row):
                    yield None, deep, np.array(spot), np.array(spot) + inward * deep


def _corners(cut: JointCut, axis: int) -> Vector:
    """The ends of those lines of an outline that run across one way of the page: places that way can be measured to."""
    found = [np.zeros((0, 2))]
    for ring, broken in zip(cut.rings, cut.broken, strict=True):
        after = np.roll(ring, -1, axis=0)
        run = after - ring
        long = np.linalg.norm(run, axis=1)
        across = (long > SHORT) & (np.abs(run[:, axis]) < STEEPEST * long) & ~broken
        found += [ring[across], after[across]]
    return np.concatenate(found)


def _on_outlines(
    ends: Sequence[Vector], axis: int, value: float, near: float, corners: Vector
) -> tuple[Vector, Vector] | None:
    """Corners of what is cut between which a size is measured, each nearest to its own end; None where none lie so.

    A sloping shoulder is cut elsewhere than where the size of its part lies: both ends have then moved by as much.
    """
    start, end = (corners[np.abs(corners[:, axis] - point[axis]) < near] for point in ends)
    apart = np.abs(np.abs(end[None, :, axis] - start[:, None, axis]) - value)
    if not apart.size or apart.min() > TRUE:
        return None
    from_own = np.linalg.norm(start - ends[0], axis=1)[:, None] + np.linalg.norm(end - ends[1], axis=1)[None]
    along = np.abs(start[:, axis] - ends[0][axis])[:, None] + np.abs(end[:, axis] - ends[1][axis])[None]
    i, j = np.unravel_index(np.argmin(np.where(apart < TRUE, along + 0.01 * from_own, np.inf)), apart.shape)
    return start[i], end[j]


def _off(points: Vector, starts: Vector, ends: Vector) -> Vector:
    """How far each of some points is from the nearest of some straight lines."""
    steps = ends - starts
    to = points[:, None] - starts
    share = np.clip((to * steps).sum(axis=2) / np.maximum((steps**2).sum(axis=1), 1e-12), 0.0, 1.0)
    off: Vector = np.linalg.norm(to - share[..., None] * steps, axis=2).min(axis=1)
    return off
