"""The piece as built: what every list, drawing and step is made of.

A part's solid lies in its own *standing frame*: the axes of the piece before the part leans,
origin at the part's place of rest. `at` carries it to where it stands in the piece. All mm.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from model.frames import matrix_of
from model.meshes import Mesh, mesh_of
from plans.design import Design
from plans.sides import Axis, Side
from plans.spec import PartSpec

if TYPE_CHECKING:
    import cadquery as cq

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
    """Something said at a point of a drawing: `what` it is and its values (mm, degrees or words by name)."""

    what: str
    values: dict[str, Value]
    point: Point
    face: Side


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
    eased: cq.Solid  # with them: pictures, weight, STEP
    at: cq.Location  # standing frame -> piece
    length: tuple[float, float]  # extent along the grain in the standing frame (mm): the finished part
    width: tuple[float, float]
    thickness: tuple[float, float]
    features: tuple[Feature, ...]

    @cached_property
    def mesh(self) -> Mesh:
        """The sharp body as triangles, where it stands in the piece."""
        return mesh_of(self.sharp).moved(matrix_of(self.at))

    @cached_property
    def eased_mesh(self) -> Mesh:
        """The eased body as triangles, where it stands in the piece."""
        return mesh_of(self.eased).moved(matrix_of(self.at))


@dataclass(frozen=True)
class LoosePiece:
    """Small pieces a joint takes that are no parts of the design: pegs, dowels, wedges, loose tenons."""

    what: str
    count: int
    values: dict[str, Value] = field(default_factory=dict)


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

    def solids(self) -> tuple[cq.Shape, ...]:
        """Every one of them where it stands in the piece."""
        return () if self.solid is None else tuple(self.solid.moved(place) for place in self.at)


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
