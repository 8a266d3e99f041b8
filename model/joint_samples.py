"""The two members of a joint near where they meet, the rest of them broken off, for the joint to be drawn by itself."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import manifold3d
import numpy as np

from model import kernel
from model.frames import Matrix, Vector, inverse, matrix_of
from model.joints_alike import AlikeJoints
from model.kernel import placed
from model.loose_bodies import LooseSolid, loose_solids
from model.piece import JointMade, Part, Piece
from plans.sides import AXIS_NUMBER, third_axis

INTO = 1.0  # mm one part is pushed into the other, so that faces that only touch share something
LONG = 15.0  # times the thinner member: a longer joint is shown for a length out of its middle
SHOWN = (7.0, 45.0)  # how long that is: times the thinner member, and least mm
LEFT_ON = 0.9  # of the joint's section: what is left of a member beyond the joint
LEFT_ON_LIMITS = (22.0, 85.0)  # mm
SPARE = 0.5  # of what is left on: a member that ends so soon beyond it is shown to its end
CLEAR = 5.0  # mm the outline of what is kept stands off where nothing is broken off
WAVE = (0.045, 0.8, 3.0)  # how far a break swings to both sides: as a share of its length, and its limits (mm)
SWINGS = ((0.12, 0.5), (0.3, 1.0), (0.52, -0.7), (0.72, 0.8), (0.9, -0.5))  # share of the length, of the swing
APART = (0.45, 14.0)  # how far beyond being free the members are drawn apart: as a share of the joint, and least mm


@dataclass(frozen=True)
class JointSample:
    """What is drawn of a joint: both members as they stand in the piece, each with its broken ends.

    `away`: how far (mm, in the piece) the one that goes in is moved to be drawn apart, the way it really comes out;
    `seat`: corners of the box in which they meet, 8 x 3; `loose`: what stands in both of them, near enough to be shown.
    """

    alike: AlikeJoints
    of: cq.Shape
    into: cq.Shape
    away: Vector
    seat: Vector
    loose: tuple[LooseSolid, ...] = ()


def joint_sample(piece: Piece, alike: AlikeJoints) -> JointSample:
    """The members of the joint that stands for all alike. Raises KernelFault where breaking one off leaves nothing."""
    joint = alike.shown
    of, into = piece.parts[joint.a], piece.parts[joint.b]
    points = _meeting(of, into, joint)
    points = _windowed(points, of, into, joint)
    away = -np.array(joint.direction)
    loose = tuple(one for one in loose_solids(joint) if _near(one, of, into, points))
    deep = max([float(np.ptp(points @ away)), *(float(np.ptp(one.mesh.vertices @ away)) for one in loose)])
    across = float(np.ptp(points - np.outer(points @ away, away), axis=0).max())
    far = deep + max(APART[0] * max(deep, across), APART[1])
    return JointSample(alike, _kept(of, points), _kept(into, points), away * far, _box_of(points), loose)


def _near(one: LooseSolid, of: Part, into: Part, points: Vector) -> bool:
    """Whether a loose piece stands where the members are shown: of a long joint only a stretch is."""
    left_on = min(of.over_all[2], into.over_all[2]) / 2
    low, high = points.min(axis=0) - left_on, points.max(axis=0) + left_on
    middle = one.mesh.box.mean(axis=0)
    return bool(((low < middle) & (middle < high)).all())


def _meeting(of: Part, into: Part, joint: JointMade) -> Vector:
    """Points round the space that both take up, as if they were whole: of a mortise its mouth and floor."""
    pushed = tuple(np.array(joint.direction) * INTO)
    both = of.mesh.manifold.hull().translate(pushed) ^ into.mesh.manifold.hull()
    if both.is_empty():  # they stand further apart than they are pushed: what lies about the point that the joint names
        half = min(of.over_all[2], into.over_all[2]) / 2
        return _corners(np.array(joint.point) - half, np.array(joint.point) + half)
    return _vertices(both)


def _vertices(body: manifold3d.Manifold) -> Vector:
    return np.asarray(body.to_mesh64().vert_properties[:, :3], dtype=np.float64)


def _windowed(points: Vector, of: Part, into: Part, joint: JointMade) -> Vector:
    """The same, of what runs on for long only a stretch near the middle, along the part that takes the other.

    It is the stretch about a loose piece where there is any.
    """
    thin = min(of.over_all[2], into.over_all[2])
    shown = max(SHOWN[0] * thin, SHOWN[1])
    at = matrix_of(into.at)
    own = _carried(inverse(at), points)
    low, high = own.min(axis=0), own.max(axis=0)
    long = high - low > max(LONG * thin, shown)
    if not long.any():
        return points
    middle = (low + high) / 2
    standing = [_carried(inverse(at), one.mesh.vertices).mean(axis=0) for one in loose_solids(joint)]
    middle = min(standing, key=lambda spot: float(np.linalg.norm(spot - middle)), default=middle)
    low, high = np.where(long, middle - shown / 2, low), np.where(long, middle + shown / 2, high)
    return _carried(at, _corners(low, high))


def _kept(part: Part, points: Vector) -> cq.Shape:
    """A part with all that lies far from the joint broken off across its length and its width."""
    at = matrix_of(part.at)
    own = _carried(inverse(at), points)
    runs, thick = AXIS_NUMBER[part.spec.runs], AXIS_NUMBER[part.spec.thick]
    wide = AXIS_NUMBER[third_axis(part.spec.runs, part.spec.thick)]
    reach = part.own_mesh.box
    size = sorted(np.ptp(own, axis=0))[1]
    left_on = float(np.clip(LEFT_ON * max(size, part.over_all[2]), *LEFT_ON_LIMITS))
    keep = np.array([own.min(axis=0) - left_on, own.max(axis=0) + left_on])
    broken = np.array([keep[0] > reach[0] + SPARE * left_on, keep[1] < reach[1] - SPARE * left_on])
    if not broken[:, [runs, wide]].any():
        return placed(part.sharp, part.at)
    bounds = np.where(broken, keep, [reach[0] - CLEAR, reach[1] + CLEAR])
    block = _block(bounds, broken, runs, wide, thick, reach)
    kept = kernel.common(part.sharp, block)
    if not kept:
        raise kernel.KernelFault(f"breaking {part.name} off near a joint leaves nothing")
    for solid in kept:
        kernel.tell_smooth_edges(solid)
    whole: cq.Shape = kept[0] if len(kept) == 1 else cq.Compound.makeCompound(kept)
    return placed(whole, part.at)


def _block(bounds: Vector, broken: Vector, runs: int, wide: int, thick: int, reach: Vector) -> cq.Solid:
    """What is kept of a part: a block as thick as it is, wavy where it is broken off."""
    corners = [(0, 0), (1, 0), (1, 1), (0, 1)]
    # the side that starts at each corner, and at which end of which direction it lies
    sides = [(wide, 0), (runs, 1), (wide, 1), (runs, 0)]
    floor = reach[0][thick] - CLEAR

    def place(along: float, across: float) -> cq.Vector:
        point = np.zeros(3)
        point[runs], point[wide], point[thick] = along, across, floor
        return kernel.vector(point)

    ring = [(float(bounds[a][runs]), float(bounds[b][wide])) for a, b in corners]
    edges = []
    for n, (axis, end) in enumerate(sides):
        start, stop = ring[n], ring[(n + 1) % 4]
        if broken[end][axis]:
            edges.append(cq.Edge.makeSpline([place(*spot) for spot in _wavy(start, stop)]))
        else:
            edges.append(cq.Edge.makeLine(place(*start), place(*stop)))
    up = np.zeros(3)
    up[thick] = float(np.ptp(reach[:, thick])) + 2 * CLEAR
    return cq.Solid.extrudeLinear(cq.Wire.assembleEdges(edges), [], kernel.vector(up))


def _wavy(start: tuple[float, float], stop: tuple[float, float]) -> list[tuple[float, float]]:
    """A break from one corner to the next, as a hand draws it."""
    a, b = np.array(start), np.array(stop)
    run = b - a
    far = float(np.hypot(*run))
    share, least, most = WAVE
    aside = np.array([run[1], -run[0]]) / far * float(np.clip(share * far, least, most))
    spots = [a, *(a + run * along + aside * swing for along, swing in SWINGS), b]
    return [(float(x), float(y)) for x, y in spots]


def _box_of(points: Vector) -> Vector:
    return _corners(points.min(axis=0), points.max(axis=0))


def _corners(low: Vector, high: Vector) -> Vector:
    return np.array([[(low, high)[bit][n] for n, bit in enumerate(bits)] for bits in np.ndindex(2, 2, 2)])


def _carried(matrix: Matrix, points: Vector) -> Vector:
    return np.asarray(points @ matrix[:3, :3].T + matrix[:3, 3])
