"""What has been cut already: parts worked alike, or as mirror images, are cut once.

A solid is known by its blank and all the work done on it since, told from the geometry of the tools and never by
name: the same part in a row, its image on the other side, and the same part in the piece that is made from the printed
numbers are then one. Works in the standing frame, where a mirror image is one in a plane through the origin.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import product
from typing import TypeVar, cast

import cadquery as cq
import numpy as np
import numpy.typing as npt
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_Line
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp
from OCP.TopoDS import TopoDS
from OCP.TopTools import TopTools_IndexedMapOfShape

from model import kernel
from plans.sides import AXIS_NUMBER, Axis

STEP = 1.0371e-5  # mm; nothing anybody writes down falls on the border of two steps
STEP2 = 1.0371e-3  # mm2, of moments

Hands = tuple[int, int, int]  # for each axis, -1 where an image is taken across it
HANDS: tuple[Hands, ...] = tuple((x, y, z) for x, y, z in product((1, -1), repeat=3))
UPRIGHT = HANDS[0]  # no image at all
Kept = TypeVar("Kept", bound=cq.Shape)


@dataclass(frozen=True)
class Past:
    """What a solid was made of: a key for it as it is, and for each of its images."""

    keys: dict[Hands, bytes]

    def after(self, work: str, tools: Iterable[cq.Shape] = ()) -> Past:
        """With one more work done, with `tools` in the standing frame."""
        told = [_told(tool) for tool in tools]
        return Past({hands: _longer(key, work, told, hands) for hands, key in self.keys.items()})

    def image(self, axis: Axis) -> Past:
        """Of the mirror image in the plane square to `axis`."""
        number = AXIS_NUMBER[axis]
        return Past({(*h[:number], -h[number], *h[number + 1 :]): key for h, key in self.keys.items()})  # type: ignore[misc]


NOTHING = Past(dict.fromkeys(HANDS, b""))


class Store:
    """The solids made so far, by what they are made of."""

    def __init__(self) -> None:
        self._kept: dict[bytes, cq.Shape] = {}

    def given(self, past: Past, make: Callable[[], Kept]) -> Kept:
        """The solid with this past: one kept, or the image of one; made, and kept, where there is none."""
        key = past.keys[UPRIGHT]
        if key not in self._kept:
            image = next((hands for hands, other in past.keys.items() if other in self._kept), None)
            self._kept[key] = make() if image is None else self._image(past.keys[image], image)
        return cast(Kept, self._kept[key])

    def _image(self, key: bytes, hands: Hands) -> cq.Shape:
        return kernel.carried(self._kept[key], np.diag([*(float(hand) for hand in hands), 1.0]))


@dataclass(frozen=True)
class _Told:
    """What tells a tool: how many edges; its corners, N x 3; with curves, its centroid, second moments and size."""

    edges: int
    corners: npt.NDArray[np.float64]
    centre: npt.NDArray[np.float64]
    second: npt.NDArray[np.float64]
    size: float

    def seen(self, hands: Hands) -> bytes:
        """Of an image, as whole steps."""
        flips = np.array(hands, dtype=np.float64)
        corners = _steps(self.corners * flips, STEP)
        whole = [_steps(self.centre * flips, STEP), _steps(self.second * np.outer(flips, flips), STEP2).ravel()]
        rest = np.concatenate([*whole, _steps(np.array([self.size]), STEP), [self.edges]])
        return corners[np.lexsort(corners.T)].tobytes() + rest.astype(np.int64).tobytes()


def _longer(key: bytes, work: str, told: list[_Told], hands: Hands) -> bytes:
    longer = hashlib.blake2b(key, digest_size=20)
    longer.update(work.encode())
    for each in sorted(tool.seen(hands) for tool in told):
        longer.update(each)
    return longer.digest()


def _told(tool: cq.Shape) -> _Told:
    """A tool by its corners and, where it has curves, by its volume, its centroid and its second moments too."""
    edges = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(tool.wrapped, TopAbs_EDGE, edges)
    straight, corners, chance = True, TopTools_IndexedMapOfShape(), TopTools_IndexedMapOfShape()
    for n in range(1, edges.Extent() + 1):
        edge = TopoDS.Edge_s(edges.FindKey(n))
        straight = straight and BRepAdaptor_Curve(edge).GetType() == GeomAbs_Line
        first, last = TopExp.FirstVertex_s(edge), TopExp.LastVertex_s(edge)
        for vertex in (first, last):  # where a closed edge begins is chance
            (chance if first.IsSame(last) else corners).Add(vertex)
    found = [corners.FindKey(n) for n in range(1, corners.Extent() + 1)]
    points = np.array([cq.Vertex(v).toTuple() for v in found if not chance.Contains(v)]).reshape(-1, 3)
    if straight:
        return _Told(edges.Extent(), points, np.zeros(3), np.zeros((3, 3)), 0.0)
    whole = GProp_GProps()
    BRepGProp.VolumeProperties_s(tool.wrapped, whole)
    centre, second, volume = whole.CentreOfMass(), whole.MatrixOfInertia(), whole.Mass()
    moments = np.array([[second.Value(i, j) for j in (1, 2, 3)] for i in (1, 2, 3)]) / volume
    return _Told(edges.Extent(), points, np.array(centre.Coord()), moments, abs(volume) ** (1 / 3))


def _steps(values: npt.NDArray[np.float64], step: float) -> npt.NDArray[np.int64]:
    """Each value as a whole number of steps."""
    return np.round(values / step).astype(np.int64)
