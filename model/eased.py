"""The eased body of a part, made only when it is asked for.

Pictures, weights, the solid model and one check want it; joints, fixings and all other checks look at the sharp body.
Until then it is what was eased, the work done on it since, and marks that tell one easing from another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property

import cadquery as cq
import numpy as np

from model import kernel
from model.frames import Vector, mirror_matrix
from plans.sides import Axis


@dataclass(frozen=True)
class Mark:
    """What was eased: a point in the middle of it (standing frame, mm), how it was eased, and a length of it (mm)."""

    point: Vector
    how: str
    size: float


@dataclass(frozen=True)
class Eased:
    """An eased body in the standing frame; `make` gives it and raises KernelFault where it cannot be made."""

    make: Callable[[], cq.Solid]
    marks: tuple[Mark, ...]
    # work put off, on what `make` gives: tools to take away, each with the turn in which it is, and what it is for
    tools: tuple[tuple[int, cq.Shape, str], ...] = ()

    @cached_property
    def solid(self) -> cq.Solid:
        """The body, made the first time it is asked for."""
        begun = self.make()
        try:
            return self._less(begun, [[t for t in self.tools if t[0] == turn] for turn in self._turns])
        except kernel.KernelFault:  # many tools at once are more than the kernel can bear now and then
            return self._less(begun, [[tool] for tool in self.tools])

    @property
    def _turns(self) -> list[int]:
        return sorted({turn for turn, _, _ in self.tools})

    def _less(self, solid: cq.Solid, together: list[list[tuple[int, cq.Shape, str]]]) -> cq.Solid:
        for some in together:
            solid = kernel.cut(solid, [tool for _, tool, _ in some], some[-1][2], must_change=False)
        return solid

    def cut(self, tools: Iterable[cq.Shape], what: str, *, in_turn: bool = False) -> Eased:
        """The same less `tools`; they need not reach it."""
        more = ((turn if in_turn else 0, tool, what) for turn, tool in enumerate(tools))
        return Eased(self.make, self.marks, (*self.tools, *more))

    def added(self, shape: cq.Shape, what: str) -> Eased:
        """The same and `shape` as one."""
        return Eased(lambda: kernel.fuse(self.solid, shape, what), self.marks)

    def mirrored(self, axis: Axis) -> Eased:
        """The mirror image in the plane square to `axis`."""
        mirror = mirror_matrix(axis)
        marks = tuple(Mark(mirror @ mark.point, mark.how, mark.size) for mark in self.marks)
        return Eased(lambda: kernel.one_solid(kernel.mirrored(self.solid, axis), "the mirror image"), marks)


def mark_of(tool: cq.Shape) -> Mark:
    """A tool that only the eased body is cut with, as a mark."""
    return Mark(np.array(tool.Center().toTuple()), "cut", float(tool.Volume()) ** (1 / 3))


def ready(solid: cq.Solid, marks: Iterable[Mark]) -> Eased:
    """An eased body that is there already."""
    return Eased(lambda: solid, tuple(marks))
