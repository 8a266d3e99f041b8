"""The piece as built: what every list, drawing and step is made of.

A part's solid lies in its own *standing frame*: the axes of the piece before the part leans,
origin at the part's place of rest. `at` carries it to where it stands in the piece. All mm.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from itertools import product
from typing import TYPE_CHECKING, Literal

import numpy as np
import numpy.typing as npt

from model import kernel
from model.eased import Eased
from model.frames import Matrix, matrix_of
from model.meshes import Mesh, mesh_kept, mesh_of
from model.overlap import Shared, boxes_meet, meeting_boxes, shared
from model.store import Store
from plans.design import Design
from plans.sides import AXES, Axis, Side, third_axis
from plans.spec import PartSpec

if TYPE_CHECKING:
    import cadquery as cq

    from model.stages import Stage

CLASH = 0.5  # mm3; a round peg of facets in a round hole of facets overlaps by less
ROUGH = 0.01  # share by which the sizes of a part with curves may fall short of it: they are taken from points
Point = tuple[float, float, float]
Value = float | str | int | None


@dataclass(frozen=True)
class Size:
    """A length to be shown on a drawing: what it is, how long, and between which points.

    `start` and `end` lie in the part's standing frame; the value is their distance `along` one axis
    of it. `face` is the side one looks at to see it true. `role` says what it does on the sheet.
    """

    name: str
    value: float
    along: Axis
    start: Point
    end: Point
    face: Side
    role: Literal["overall", "size", "position", "reference"]


@dataclass(frozen=True)
class Callout:
    """Something said at a point of a drawing: `what` it is and its values (mm, degrees or words by name).

    `fills`: two corners of the box that what it tells of fills, where it may be told at any place within; None where
    it is told at the point alone. `row`: where the others of a row stand, of which the first stands at the point.
    """

    what: str
    values: dict[str, Value]
    point: Point
    face: Side
    fills: tuple[Point, Point] | None = None
    row: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Operation:
    """Work done on one part: what the shop does, with which setting (mm, degrees)."""

    name: str
    settings: dict[str, Value] = field(default_factory=dict)


@dataclass(frozen=True)
class Feature:
    """What one shaping, joint or fixing made on one part."""

    kind: str
    family: Literal["cut", "shaping", "joint", "fixing"]
    sizes: tuple[Size, ...] = ()
    callouts: tuple[Callout, ...] = ()
    operation: Operation | None = None
    other: str | None = None  # name of the part it meets


@dataclass(frozen=True)
class Part:
    """One part as it stands in the piece."""

    name: str  # "leg front left"
    kind: str  # "leg"
    spec: PartSpec
    sharp: cq.Solid  # without eased arrises: drawings, checks
    at: cq.Location  # standing frame -> piece
    length: tuple[float, float]  # extent along the grain in the standing frame (mm): the finished part
    width: tuple[float, float]
    thickness: tuple[float, float]
    features: tuple[Feature, ...]
    easing: Eased | None = None  # nothing where no arris is eased
    like: tuple[Part, Matrix] | None = None  # a part that comes out exactly alike, and the motion onto this one
    unjoined: cq.Solid | None = None  # before joints were cut: its sides as a design speaks of them

    @property
    def over_all(self) -> tuple[float, float, float]:
        """Length, width and thickness of the finished part (mm), whether the design states them or not."""
        (a, b), (c, d), (e, f) = self.length, self.width, self.thickness
        return b - a, d - c, f - e

    @cached_property
    def eased(self) -> cq.Solid:
        """The body with eased arrises, in its standing frame: pictures, weight, solid model.

        Made when first asked for; of parts that come out alike one is made. Raises KernelFault where it cannot be.
        """
        if self.easing is None:
            return self.sharp
        if self.like is not None:
            return kernel.one_solid(kernel.carried(self.like[0].eased, self.like[1]), "carrying an eased body")
        return kernel.tell_smooth_edges(self.easing.solid)

    @cached_property
    def eased_volume(self) -> float:
        """Of the eased body (mm3)."""
        return float(self.eased.Volume()) if self.like is None else self.like[0].eased_volume

    @cached_property
    def eased_area(self) -> float:
        """Surface of the eased body (mm2)."""
        return float(self.eased.Area()) if self.like is None else self.like[0].eased_area

    @cached_property
    def reach(self) -> npt.NDArray[np.float64]:
        """A box in the piece that holds the part, 2 x 3: from its sizes, and somewhat too large."""
        own = {self.spec.runs: self.length, self.spec.thick: self.thickness}
        own[third_axis(self.spec.runs, self.spec.thick)] = self.width
        low, high = np.array([own[axis] for axis in AXES]).T
        more = 1.0 + ROUGH * (high - low).max()
        corners = np.array(list(product(*np.transpose([low - more, high + more]))))
        there = corners @ (at := matrix_of(self.at))[:3, :3].T + at[:3, 3]
        return np.array([there.min(axis=0), there.max(axis=0)])

    @cached_property
    def own_mesh(self) -> Mesh:
        """The sharp body as triangles, in its standing frame; of parts that come out alike one only is meshed."""
        return mesh_kept(self.sharp) if self.like is None else self.like[0].own_mesh.moved(self.like[1])

    @cached_property
    def own_eased_mesh(self) -> Mesh:
        """The same of the eased body."""
        if self.easing is None:
            return self.own_mesh
        return mesh_of(self.eased) if self.like is None else self.like[0].own_eased_mesh.moved(self.like[1])

    @cached_property
    def mesh(self) -> Mesh:
        """The sharp body as triangles, where it stands in the piece."""
        return self.own_mesh.moved(matrix_of(self.at))

    @cached_property
    def eased_mesh(self) -> Mesh:
        """The eased body as triangles, where it stands in the piece."""
        return self.own_eased_mesh.moved(matrix_of(self.at))


@dataclass(frozen=True)
class LooseBody:
    """Where a loose piece stands in the piece when its joint is closed: a rod, or a prism.

    `outline`: the corners of one end in turn; of a rod its middle alone. `way`: from there to the other end.
    `bowed`: every other point of the outline is the middle of an arc.
    `grain`: the way its fibres run; None where they run no one way.
    """

    outline: tuple[Point, ...]
    way: Point
    grain: Point | None
    diameter: float = 0.0  # of a rod
    bowed: bool = False


@dataclass(frozen=True)
class LoosePiece:
    """Small pieces a joint takes that are no parts of the design: pegs, dowels, wedges, loose tenons."""

    what: str
    count: int
    values: dict[str, Value] = field(default_factory=dict)
    bodies: tuple[LooseBody, ...] = ()  # one each; none of what has no shape of its own until it is driven


@dataclass(frozen=True)
class JointMade:
    """One joint found in the piece."""

    kind: str
    number: int  # which entry of the design's joints, from 0
    a: str  # the part that goes in
    b: str  # the part it goes into
    point: Point  # where they meet, in the piece
    direction: Point  # unit vector in the piece along which `a` goes in
    travel: float  # mm it must move to be free of the joint
    glued: bool
    loose: tuple[LoosePiece, ...] = ()
    adhesive: str | None = None  # where it is not the glue of the design


@dataclass(frozen=True)
class FixingMade:
    """One place where a fixing is driven: `points` where heads sit in the piece, `direction` of driving.

    What is fitted to a single part names it twice, as `through` and as `into`.
    """

    kind: str
    number: int
    through: str
    into: str
    points: tuple[Point, ...]
    direction: Point
    values: dict[str, Value] = field(default_factory=dict)
    solid: cq.Shape | None = None  # one of them, plain: its point at the origin, z the way it is driven
    at: tuple[cq.Location, ...] = ()  # where `solid` stands in the piece, one for each point
    shown: bool = True  # in pictures; what is buried in wood is only checked and written out
    bored: bool = True  # stands in holes made for it; a nail makes its own way
    last: bool = False  # fitted when all else is done
    pin: tuple[Point, Point] | None = None  # of a hinge: a point of its pin and the way it lies, as `solid` stands

    def meshes(self) -> tuple[Mesh, ...]:
        """The triangles of every one of them where it stands in the piece."""
        return () if self.solid is None else tuple(mesh_kept(self.solid).moved(matrix_of(place)) for place in self.at)

    def solids(self) -> tuple[cq.Shape, ...]:
        """Every one of them where it stands in the piece."""
        return () if self.solid is None else tuple(kernel.placed(self.solid, place) for place in self.at)


@dataclass(frozen=True)
class AssemblyMade:
    """One assembly of the piece: parts that are put together apart and go in as one."""

    name: str  # "drawer 2"
    kind: str  # "drawer"
    parts: tuple[str, ...]
    mirrored: tuple[Axis, ...] = ()  # directions in which it is a mirror image of what the design says


@dataclass(frozen=True)
class Item:
    """Parts that come out alike: one mark, one drawing, one line in the cut list."""

    mark: str
    name: str
    parts: tuple[str, ...]  # as the first
    mirrored: tuple[str, ...]  # mirror images of it
    shown: str  # the part that is drawn
    # 4 x 4 each: from the standing frame of the part shown to that of another, where one lies on the other exactly
    motions: dict[str, Matrix] = field(default_factory=dict, compare=False, repr=False)

    @property
    def quantity(self) -> int:
        """How many to make, both hands together."""
        return len(self.parts) + len(self.mirrored)


@dataclass(frozen=True)
class Piece:
    """The whole piece, built."""

    design: Design
    parts: dict[str, Part]
    joints: tuple[JointMade, ...]
    fixings: tuple[FixingMade, ...]
    items: tuple[Item, ...]
    size: tuple[float, float, float]  # overall: left-right, front-back, up-down
    assemblies: tuple[AssemblyMade, ...] = ()
    store: Store = field(default_factory=Store, compare=False, repr=False)  # what was cut to make it

    @cached_property
    def clashes(self) -> dict[tuple[str, str], Shared]:
        """Pairs of parts that share more than `CLASH` mm3 by their meshes, and what."""
        parts = list(self.parts.values())
        found = {}
        # what stands far from everything else need not be turned into triangles
        for i, j in meeting_boxes(np.array([part.reach for part in parts]), 0.0):
            a, b = parts[i], parts[j]
            if boxes_meet(a.mesh.box, b.mesh.box):
                found[a.name, b.name] = shared(a.mesh, b.mesh)
        return {pair: both for pair, both in found.items() if both.volume > CLASH}

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        """The stages in which it is put together, found once."""
        from model.sequence import assembly

        return assembly(self)
