"""A part while it is being built.

The solids lie in the part's standing frame (axes of the piece, as if the part stood upright); `at`
carries them into the piece. Every cut is made on the sharp body; the eased one takes it when it is made.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property

import cadquery as cq
import numpy as np

from model import kernel
from model.brep import carried_from, compound
from model.eased import Eased, Mark, mark_of, ready
from model.frames import (
    Matrix,
    Vector,
    apply,
    axis_vector,
    inverse,
    location,
    mirror_matrix,
    placing,
    side_vector,
    turn,
)
from model.kernel import Plane
from model.meshes import Mesh, mesh_kept
from model.once import once
from model.piece import Callout, Feature, Part, Point, Size, Value
from model.probe import probe
from model.store import NOTHING, Past, Store
from plans.sides import AXES, AXIS_NUMBER, OPPOSITE, SIDE_AXIS, SIDE_SIGN, SIDES, Axis, Side, sides_of, third_axis
from plans.spec import PartSpec

SIDE_WORD = re.compile(rf"\b({'|'.join(SIDES)})\b")


@dataclass(frozen=True)
class Extents:
    """How far a part reaches along each axis of its standing frame (mm): lowest and highest corner."""

    low: Vector
    high: Vector

    def of(self, axis: Axis) -> tuple[float, float]:
        """Reach along one axis."""
        number = AXIS_NUMBER[axis]
        return float(self.low[number]), float(self.high[number])

    def at(self, side: Side) -> float:
        """Coordinate of a side along its own axis."""
        return self.of(SIDE_AXIS[side])[0 if SIDE_SIGN[side] < 0 else 1]

    def size(self, axis: Axis) -> float:
        """Length along one axis."""
        low, high = self.of(axis)
        return high - low

    def middle(self) -> Vector:
        """The point in the middle."""
        return (self.low + self.high) / 2


@once
def extents_of(shape: cq.Shape) -> Extents:
    """Reach of a shape, from its corners and, where it has curved edges, from points along them."""
    source = carried_from(shape)
    if source is not None and np.array_equal(np.abs(source[1]), np.eye(4)):
        reach, flips = extents_of(source[0]), np.diag(source[1])[:3]
        corners = np.array([reach.low * flips, reach.high * flips])
        return Extents(corners.min(axis=0), corners.max(axis=0))
    points = [kernel.vertices(shape)]
    for edge in shape.Edges():
        if edge.geomType() == "CIRCLE":
            points.append(kernel.along_circle(edge, 49))
        elif edge.geomType() != "LINE":
            points.append(np.array([edge.positionAt(i / 48).toTuple() for i in range(49)]))
    every = np.vstack(points)
    return Extents(every.min(axis=0), every.max(axis=0))


@dataclass
class Body:
    """One part being built; `blank` is its reach before joints, from which everything is set out."""

    name: str
    kind: str
    spec: PartSpec
    sharp: cq.Solid
    at: Matrix
    blank: Extents
    easing: Eased | None = None  # nothing where no arris is eased: then it is the sharp body
    features: list[Feature] = field(default_factory=list)
    store: Store = field(default_factory=Store, repr=False)
    past: Past = NOTHING  # of the sharp body, by which the store knows it
    unjoined: cq.Solid | None = None  # the sharp body before any joint is cut

    @property
    def runs(self) -> Axis:
        """The way the grain runs."""
        return self.spec.runs

    @property
    def thick(self) -> Axis:
        """The way the thickness is measured."""
        return self.spec.thick

    @property
    def wide(self) -> Axis:
        """The way the width is measured."""
        return third_axis(self.spec.runs, self.spec.thick)

    @property
    def ends(self) -> tuple[Side, Side]:
        """The two ends."""
        return sides_of(self.runs)

    @property
    def datum_end(self) -> Side:
        """The end a maker hooks the tape on: the top of an upright, else the left or the front."""
        return "top" if self.runs == "up-down" else self.ends[0]

    def datum_side(self, axis: Axis) -> Side:
        """The side from which places across the part are measured: one that no taper or curve has moved."""
        moved = {
            side
            for feature in self.features
            for callout in feature.callouts
            for side in str(callout.values.get("sides", "")).split(", ")
        }
        low, high = sides_of(axis)
        return high if low in moved and high not in moved else low

    @cached_property
    def back(self) -> Matrix:
        """From the piece to the standing frame."""
        return inverse(self.at)

    def world(self, shape: cq.Shape) -> cq.Shape:
        """A shape of this part, moved to where it stands in the piece."""
        return kernel.placed(shape, location(self.at))

    def local(self, shape: cq.Shape) -> cq.Shape:
        """A shape in the piece, moved into the standing frame."""
        return kernel.placed(shape, location(self.back))

    def local_plane(self, plane: Plane) -> Plane:
        """A plane of the piece, in the standing frame."""
        return Plane(self.back[:3, :3] @ plane.point + self.back[:3, 3], self.back[:3, :3] @ plane.normal)

    def outward(self, side: Side) -> Vector:
        """Unit vector in the piece pointing out of a side of this part."""
        return self.at[:3, :3] @ side_vector(side)

    @property
    def eased(self) -> cq.Solid:
        """The body with its arrises eased; the sharp one where none are."""
        return self.sharp if self.easing is None else self.easing.solid

    @property
    def marks(self) -> tuple[Mark, ...]:
        """What has been eased."""
        return () if self.easing is None else self.easing.marks

    def wood(self, point: Vector, direction: Vector) -> list[tuple[float, float]]:
        """As `Probe.wood` of the sharp body: stretches of wood ahead of a point, along a unit vector of the piece."""
        return probe(self.sharp).wood(apply(self.back, point), turn(self.back, direction))

    def mesh(self) -> Mesh:
        """The sharp body as triangles, where it stands in the piece."""
        return mesh_kept(self.sharp).moved(self.at)

    def _become(self, work: str, tools: list[cq.Shape], make: Callable[[], cq.Solid]) -> None:
        """The sharp body after one more work: made, unless one like it has been made before."""
        past = self.past.after(work, tools)
        self.sharp = self.store.given(past, make)
        self.past = past

    def cut(self, tools: Iterable[cq.Shape], what: str, *, must_change: bool = True, in_turn: bool = False) -> None:
        """Take `tools` (standing frame) away from both bodies."""
        cutters, sharp = list(tools), self.sharp
        self._become(
            f"cut {must_change}",
            cutters,
            lambda: kernel.cut(sharp, cutters, what, must_change=must_change, in_turn=in_turn),
        )
        if self.easing is not None:
            self.easing = self.easing.cut(cutters, what, in_turn=in_turn)

    def taken(self, tools: Iterable[cq.Shape], what: str) -> cq.Shape:
        """As `cut`, in turn; gives what was taken off the sharp body (standing frame)."""
        before = self.sharp
        self.cut(tools, what, in_turn=True)
        return self.store.given(self.past.after("taken"), lambda: compound(kernel.less(before, self.sharp)))

    def cut_eased(self, tools: Iterable[cq.Shape], what: str) -> None:
        """Take `tools` (standing frame) away from the eased body only."""
        cutters = list(tools)
        self.easing = ready(kernel.cut(self.eased, cutters, what), (*self.marks, *map(mark_of, cutters)))

    def add(self, shape: cq.Shape, what: str) -> None:
        """Join `shape` (standing frame) to both bodies."""
        sharp = self.sharp
        self._become("add", [shape], lambda: kernel.fuse(sharp, shape, what))
        if self.easing is not None:
            self.easing = self.easing.added(shape, what)

    def finish(self) -> Part:
        """The finished part."""
        reach = extents_of(self.sharp)
        return Part(
            name=self.name,
            kind=self.kind,
            spec=self.spec,
            sharp=kernel.tell_smooth_edges(self.sharp),
            easing=self.easing,
            at=location(self.at),
            length=reach.of(self.runs),
            width=reach.of(self.wide),
            thickness=reach.of(self.thick),
            features=tuple(self.features),
            unjoined=self.unjoined,
        )


def shifted(body: Body, shift: Vector, name: str) -> Body:
    """The same part elsewhere, `shift` mm away."""
    at = placing(body.at[:3, :3], body.at[:3, 3] + shift)
    return replace(body, name=name, at=at, features=list(body.features))


def mirrored(body: Body, axis: Axis, name: str, centre: float = 0.0) -> Body:
    """The mirror image of a part in a plane square to `axis`: the centre plane of the piece, or `centre` mm off it."""
    mirror = mirror_matrix(axis)
    past = body.past.image(axis)
    corners = np.array([mirror @ body.blank.low, mirror @ body.blank.high])
    return Body(
        name=name,
        kind=body.kind,
        spec=body.spec,
        sharp=body.store.given(past, lambda: kernel.mirrored(body.sharp, axis)),
        easing=None if body.easing is None else body.easing.mirrored(axis),
        at=placing(mirror @ body.at[:3, :3] @ mirror, mirror @ body.at[:3, 3] + axis_vector(axis) * 2 * centre),
        blank=Extents(corners.min(axis=0), corners.max(axis=0)),
        features=[_mirrored_feature(feature, axis) for feature in body.features],
        store=body.store,
        past=past,
    )


def _mirrored_feature(feature: Feature, axis: Axis) -> Feature:
    def point(p: Point) -> Point:
        coordinates = list(p)
        coordinates[AXES.index(axis)] *= -1
        return (coordinates[0], coordinates[1], coordinates[2])

    def side(s: Side) -> Side:
        return OPPOSITE[s] if SIDE_AXIS[s] == axis else s

    def words(value: Value) -> Value:
        if not isinstance(value, str):
            return value
        return SIDE_WORD.sub(lambda found: side(found[0]), value)  # type: ignore[arg-type]

    def size(s: Size) -> Size:
        return replace(s, start=point(s.start), end=point(s.end), face=side(s.face))

    def callout(c: Callout) -> Callout:
        values = {key: words(value) for key, value in c.values.items()}
        fills = c.fills and (point(c.fills[0]), point(c.fills[1]))
        return replace(
            c, point=point(c.point), face=side(c.face), values=values, fills=fills, row=tuple(map(point, c.row))
        )

    done = feature.operation
    return replace(
        feature,
        operation=done and replace(done, settings={key: words(value) for key, value in done.settings.items()}),
        sizes=tuple(size(s) for s in feature.sizes),
        callouts=tuple(callout(c) for c in feature.callouts),
    )
