"""How much each number of a design moves what was measured: the piece built with that number a little larger.

Lengths in mm, angles in degrees; differences are counted in what their measuring may be out by.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.bare import sharp, unbored
from model.build import build
from model.comparing import Compared
from model.frames import Matrix, Vector
from model.measuring import Absent, measure
from model.store import Store
from plans.design import Design
from plans.driving import Driving, NumberKind, named_numbers, with_numbers
from plans.problems import Problem, has_errors
from plans.reached import reached_by

Progress = Callable[[str], None]
TRIED: dict[NumberKind, float] = {"length": 0.5, "angle": 0.1}  # what a number is changed by to see what it moves
TRIED_BY = (1.0, -1.0, 0.1, -0.1)  # in turn, until the piece can be built
# what a number may be off by: half of itself, but at least so much
AT_LEAST: dict[NumberKind, float] = {"length": 6.0, "angle": 3.0}
MOVES = 1e-4  # of a measuring, a unit: less is no effect


@dataclass(frozen=True)
class Bench:
    """Where the design is built with other numbers, and measured. `bored`: with the holes of its fixings."""

    design: Design
    places: tuple[Compared, ...]
    store: Store
    bored: bool

    @cached_property
    def off(self) -> Vector:
        """How much longer the finished piece is than the design, at each place."""
        return np.array([one.off() / one.tolerance for one in self.places])

    def off_with(self, numbers: Mapping[Driving, float]) -> tuple[Vector | None, tuple[Problem, ...]]:
        """The same with other numbers; nothing, and why, where the piece cannot be built or measured so."""
        design, problems = with_numbers(self.design, numbers)
        if design is None or has_errors(problems):
            return None, problems
        design = sharp(design) if self.bored else unbored(sharp(design))
        piece, problems = build(design, store=self.store)
        if piece is None:
            return None, problems
        drawn = [measure(piece, place.entry) for place in self.places]
        lengths = [mm for mm in drawn if not isinstance(mm, Absent)]
        if len(lengths) < len(drawn):
            return None, ()
        return np.array([p.off(mm) / p.tolerance for p, mm in zip(self.places, lengths, strict=True)]), ()


def most(driving: Driving) -> float:
    """By how much a number may be off (mm, degrees) for it to be taken for a cause."""
    return max(abs(driving.value) / 2, AT_LEAST[driving.kind])


@dataclass(frozen=True)
class Effects:
    """What a unit of each number takes off every difference (a column each), and numbers that cannot be varied."""

    numbers: tuple[Driving, ...]
    columns: Matrix
    rigid: tuple[Driving, ...]

    def shown(self) -> tuple[Driving, ...]:
        """The numbers that could, by all they may be off, make any place differ."""
        reach = np.abs(self.columns).max(axis=0, initial=0.0)
        return tuple(one for one, by in zip(self.numbers, reach, strict=True) if by * most(one) > 1)

    def __add__(self, more: Effects) -> Effects:
        """Those of both."""
        columns = np.hstack([self.columns, more.columns])
        return Effects((*self.numbers, *more.numbers), columns, (*self.rigid, *more.rigid))


def may_move(bench: Bench) -> tuple[Driving, ...]:
    """The named numbers whose change is seen in anything that the measured parts are built from."""
    kinds = [kind for place in bench.places for kind in place.entry.kinds or bench.design.parts]
    return tuple(one for one in named_numbers(bench.design) if _is_seen(bench.design, one, kinds))


def _is_seen(design: Design, driving: Driving, kinds: Sequence[str]) -> bool:
    """Whether a change of a number is seen in anything that the measured kinds of part are built from."""
    changed, _ = with_numbers(design, {driving: driving.value + TRIED[driving.kind]})
    return changed is None or reached_by(design.spec, kinds) != reached_by(changed.spec, kinds)


def effects(bench: Bench, numbers: Sequence[Driving], progress: Progress) -> Effects:
    """Of those of the numbers that move a measured place."""
    moving: dict[Driving, Vector] = {}
    rigid = []
    for driving in numbers:
        progress(f"varying {driving.name}")
        effect = _effect(bench, driving)
        if effect is None:
            rigid.append(driving)
        elif np.abs(effect).max() > MOVES:
            moving[driving] = effect
    columns = np.array(list(moving.values()), dtype=np.float64).reshape(-1, len(bench.places)).T
    return Effects(tuple(moving), columns, tuple(rigid))


def _effect(bench: Bench, driving: Driving) -> Vector | None:
    for share in TRIED_BY:
        step = TRIED[driving.kind] * share
        there, _ = bench.off_with({driving: driving.value + step})
        if there is not None:
            return (bench.off - there) / step
    return None
