"""The design reconciled with the piece that was built: which of its numbers are off, and to what they should change.

What every number moves is found by varying it (`varying`), the fewest numbers that explain the differences are looked
for (`explaining`), and the piece is built with them: once to mend what is not linear, and once as proposed. Nothing is
written. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from model.comparing import Compared, compared
from model.explaining import EXACT, Explained, explain, fit
from model.frames import Vector
from model.measuring import by_fixings
from model.piece import Piece
from model.varying import Bench, Effects, Progress, effects, may_move, most
from plans.design import Design
from plans.driving import Driving, NumberKind, named_numbers, typed_at
from plans.problems import Problem

# to what a proposal is rounded, tried in turn: shares of the finest step that is printed (degrees of an angle)
ROUNDED: dict[NumberKind, tuple[float, ...]] = {"length": (1, 1 / 2, 1 / 4, 1 / 8), "angle": (0.5, 0.1, 0.05, 0.01)}


@dataclass(frozen=True)
class Proposal:
    """One number of the file, and what it should be; `instead`: others that would explain as much in its place.

    `explains`: the measured places, by number, that differ and that it moves by as much as a measuring may be out.
    """

    driving: Driving
    value: float
    explains: tuple[int, ...]
    instead: tuple[Driving, ...] = ()


@dataclass(frozen=True)
class Reconciled:
    """What comes of comparing the design with the piece."""

    piece: Piece
    places: tuple[Compared, ...]  # the largest difference first
    missing: tuple[Problem, ...] = ()  # places that the piece does not have
    proposals: tuple[Proposal, ...] = ()  # those that explain most first
    left: tuple[int, ...] = ()  # places, by number, that differ whatever is proposed
    after: Mapping[int, float] = field(default_factory=dict)  # what would be drawn at each place that is followed
    wrong: tuple[Problem, ...] = ()  # what keeps the piece from being built as proposed
    rigid: tuple[Driving, ...] = ()  # numbers with which, varied, the piece cannot be built
    unseen: tuple[Driving, ...] = ()  # named numbers that no measured place shows

    @property
    def open(self) -> tuple[Compared, ...]:
        """Places where the design does not agree, and where that was not decided to be so."""
        return tuple(one for one in self.places if one.followed and one.differs)


def reconcile(piece: Piece, progress: Progress = lambda _: None) -> Reconciled:
    """Compare a built design with what was measured, and find what explains the differences."""
    places, missing = compared(piece)
    found = Reconciled(piece, tuple(sorted(places, key=lambda one: -one.times)), missing)
    if not found.open:
        return found
    followed = tuple(one for one in places if one.followed)
    bench = Bench(piece.design, followed, piece.store, any(by_fixings(piece, one.entry) for one in followed))
    every = effects(bench, may_move(bench), progress)
    account = _explained(bench, every)
    if account.left:  # by the named numbers; then by those that are typed at the parts measured there
        kinds = dict.fromkeys(kind for row in account.left for kind in followed[row].entry.kinds)
        every += effects(bench, typed_at(piece.design, kinds), progress)
        account = _explained(bench, every)
    unseen = tuple(one for one in named_numbers(piece.design) if one not in (*every.shown(), *every.rigid))
    found = replace(found, rigid=every.rigid, unseen=unseen, left=tuple(followed[row].number for row in account.left))
    if not account.chosen:
        return found
    progress("building the piece as proposed")
    return _tried(found, bench, every, account)


def _explained(bench: Bench, every: Effects) -> Explained:
    return explain(every.columns, bench.off, np.array([most(one) for one in every.numbers]))


def _tried(found: Reconciled, bench: Bench, every: Effects, account: Explained) -> Reconciled:
    """An account as proposals, and what is left of the differences with them."""
    chosen = [every.numbers[n] for n in account.chosen]
    values = _values(bench, every, account, chosen)
    there, wrong = bench.off_with(dict(zip(chosen, values, strict=True)))
    if there is not None:
        left = tuple(place.number for place, off in zip(bench.places, there, strict=True) if abs(off) > 1 + EXACT)
        drawn = {
            p.number: p.way * (p.entry.value - off * p.tolerance) for p, off in zip(bench.places, there, strict=True)
        }
        found = replace(found, left=left, after=drawn)
    proposals = [
        Proposal(
            driving,
            value,
            tuple(
                place.number
                for place, moved in zip(bench.places, every.columns[:, n] * (value - driving.value), strict=True)
                if place.differs and abs(moved) >= 1
            ),
            tuple(every.numbers[other] for other in account.instead.get(n, ())),
        )
        for n, driving, value in zip(account.chosen, chosen, values, strict=True)
    ]
    proposals.sort(key=lambda one: -len(one.explains))
    return replace(found, proposals=tuple(proposals), wrong=wrong)


def _values(bench: Bench, every: Effects, account: Explained, chosen: Sequence[Driving]) -> list[float]:
    """The values of the chosen numbers: fitted once more from where the account leads (Gauss and Newton), rounded."""
    own = every.columns[:, account.chosen]
    kept = np.array([row for row in range(len(bench.places)) if row not in account.left], dtype=np.intp)
    values = np.array([driving.value for driving in chosen]) + np.array(account.change)
    expected, _ = bench.off_with({driving: float(value) for driving, value in zip(chosen, values, strict=True)})
    if expected is None:  # it is told when it is tried as proposed
        expected = bench.off - own @ np.array(account.change)
    else:
        more = fit(own[kept], expected[kept])
        values, expected = values + more, expected - own @ more
    within = kept[np.abs(expected[kept]) <= 1 + EXACT]
    return _rounded(bench.design, chosen, values, lambda rounded: expected[within] - own[within] @ (rounded - values))


def _rounded(
    design: Design, chosen: Sequence[Driving], values: Vector, off_with: Callable[[Vector], Vector]
) -> list[float]:
    """The values as coarse as leaves every place that would agree in agreement; else as fine as is proposed."""
    rounded = values
    for level in range(len(ROUNDED["length"])):
        steps = np.array([ROUNDED[one.kind][level] * _unit(design, one) for one in chosen])
        rounded = np.round(values / steps) * steps
        if (np.abs(off_with(rounded)) <= 1 + EXACT).all():
            break
    return [float(value) for value in rounded]


def _unit(design: Design, driving: Driving) -> float:
    """What a share of a step is a share of: the finest step printed in the units it is typed in (mm), or a degree."""
    return float(design.units(driving.system).step_mm) if driving.kind == "length" else 1.0
