"""Which few of many numbers explain a row of differences. Knows nothing of furniture.

Differences and effects are counted in what a measuring may be out by, so that below 1 nothing differs. What is looked
for is the shortest account: the fewest numbers that are off, and differences that nothing explains; among accounts as
short, the one of least squares. Errors of measuring are taken to lie anywhere within their tolerance alike, so that
the standard deviation is 1/sqrt(3) of it (JCGM 100:2008, 4.3.7).

Every set of one number, of two, of three is tried, fitted so that single wild differences pull little (Huber's
weights); the most promising are then settled exactly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import combinations
from math import comb, inf

import numpy as np
import numpy.typing as npt
from scipy.optimize import linprog

from model.frames import Matrix, Vector

VARIANCE = 1 / 3  # of a difference within 1 to either side, all alike likely
DOUBT = 3.841  # how much a sum of squares may rise for it to be as likely: chi-square of one freedom, 95 %
MOST_NUMBERS = 5  # that are off at once
MOST_TRIED = 20_000  # sets of numbers of one size; of more, those that add one to the best of the size before
SETTLED = 24  # sets of one size that are settled exactly
ROUNDS = 25  # of the fit that wild differences pull little
RIDGE = 1e-9  # share of its own size added to a normal matrix, so that numbers that cannot be told apart stop nothing
EXACT = 1e-6
Sets = npt.NDArray[np.intp]  # N x k: numbers by their column


@dataclass(frozen=True)
class Explained:
    """Which numbers are off, by how much, and which differences that leaves.

    `instead`: for one of the `chosen`, others that would do in its place as well as can be told.
    """

    chosen: tuple[int, ...] = ()
    change: tuple[float, ...] = ()
    left: tuple[int, ...] = ()
    instead: dict[int, tuple[int, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class _Account:
    """One set of numbers, what they change by, the differences it leaves, and the squares of the others."""

    numbers: tuple[int, ...]
    change: Vector
    left: tuple[int, ...]
    squares: float

    @property
    def length(self) -> tuple[float, int, float]:
        """What it is judged by: how much it has to tell; a number is rather off than a difference unexplained."""
        return len(self.numbers) + len(self.left), len(self.left), self.squares


def explain(effects: Matrix, off: Vector, most: Vector) -> Explained:
    """The shortest account of the differences `off`, each number changed by at most `most`.

    `effects`: of each number (a column), on each difference (a row), a unit.
    """
    if not (np.abs(off) > 1).any():
        return Explained()
    # a number that could not, by all it may change, make any difference is none of the causes
    usable = [n for n in range(effects.shape[1]) if np.abs(effects[:, n]).max(initial=0.0) * most[n] > 1.0]
    own, limit = effects[:, usable], most[usable]
    best, rivals = _shortest(own, off, limit)
    instead = {usable[n]: tuple(usable[m] for m in others) for n, others in _instead(own, off, rivals, best).items()}
    change = tuple(float(step) for step in best.change)
    return Explained(tuple(usable[n] for n in best.numbers), change, best.left, instead)


def _shortest(effects: Matrix, off: Vector, most: Vector) -> tuple[_Account, list[_Account]]:
    """The shortest account, and all that were settled of as many numbers."""
    best = _settled(effects, off, (), np.abs(off))
    found: list[_Account] = [best]
    ranked = np.zeros((1, 0), dtype=np.intp)
    for size in range(1, min(MOST_NUMBERS, effects.shape[1]) + 1):
        if size > best.length[0]:
            break  # so many numbers are more to tell than all there is
        ranked, remains = _ranked(effects, off, most, _sets(effects.shape[1], size, ranked))
        some = [
            _settled(effects, off, tuple(int(n) for n in one), rest)
            for one, rest in zip(ranked[:SETTLED], remains[:SETTLED], strict=True)
        ]
        some = [one for one in some if (np.abs(one.change) <= most[list(one.numbers)] + EXACT).all()]
        first = min(some, key=lambda one: one.length, default=None)
        if first is not None and first.length < best.length:
            best, found = first, some
    return best, found


def _sets(columns: int, size: int, before: Sets) -> Sets:
    """All sets of a size; where those are too many, the best of the size before with one more."""
    if comb(columns, size) <= MOST_TRIED or not before.shape[1]:
        return np.array(list(combinations(range(columns), size)), dtype=np.intp)
    longer = {tuple(sorted((*map(int, one), n))) for one in before[:SETTLED] for n in range(columns) if n not in one}
    return np.array(sorted(longer), dtype=np.intp)


def _ranked(effects: Matrix, off: Vector, most: Vector, sets: Sets) -> tuple[Sets, Matrix]:
    """The sets, those that leave least first, and what each leaves of every difference."""
    columns = effects.T[sets]  # N x k x m
    rest = np.tile(off, (len(sets), 1))
    for _ in range(ROUNDS):
        weights = 1 / np.maximum(1.0, np.abs(rest))
        weighted = columns * weights[:, None, :]
        normal = weighted @ columns.transpose(0, 2, 1)
        ridge = np.einsum("nkk->nk", normal) * RIDGE + RIDGE
        normal = normal + ridge[:, :, None] * np.eye(sets.shape[1])
        change = np.linalg.solve(normal, (weighted @ off)[..., None])[..., 0]
        rest = off - np.einsum("nkm,nk->nm", columns, change)
    beyond = np.abs(rest)
    # within 1 its square, beyond it what Huber's weights count
    told = np.where(beyond <= 1, beyond**2, 2 * beyond - 1).sum(axis=1)
    told = np.where((np.abs(change) <= 1.5 * most[sets]).all(axis=1), told, inf)
    order = np.argsort(told, kind="stable")
    return sets[order], beyond[order]


def _settled(effects: Matrix, off: Vector, numbers: tuple[int, ...], rest: Vector) -> _Account:
    """An account exactly: the wildest of what is left of the differences is taken out until the others fit."""
    own = effects[:, numbers]
    kept = list(range(len(off)))
    for row in (*np.argsort(-rest, kind="stable"), None):
        change = fit(own[kept], off[kept])
        after = off - own @ change
        if row is None or (np.abs(after[kept]) <= 1 + EXACT).all():
            break
        kept.remove(int(row))
    left = tuple(int(n) for n in np.flatnonzero(np.abs(after) > 1 + EXACT))
    least = least_squares(own[kept], off[kept])
    return _Account(numbers, change, left, float(((off - own @ least)[kept] ** 2).sum() / VARIANCE))


def fit(effects: Matrix, off: Vector) -> Vector:
    """The changes of least squares; where those leave something beyond 1 that need not be, of the least worst."""
    change: Vector = least_squares(effects, off)
    after = np.abs(off - effects @ change)
    # what leaves a mean square above 1 at its least leaves, however fitted, a difference above 1
    if len(change) and after.max(initial=0.0) > 1 and (after**2).mean() <= 1:
        even = _least_worst(effects, off)
        if np.abs(off - effects @ even).max() <= 1 + EXACT:
            change = even
    return change


def least_squares(effects: Matrix, off: Vector) -> Vector:
    """The changes that leave the least sum of squares; the smallest such where they cannot be told apart."""
    if not effects.size:
        return np.zeros(effects.shape[1])
    return np.asarray(np.linalg.lstsq(effects, off, rcond=1e-9)[0], dtype=np.float64)


def _least_worst(effects: Matrix, off: Vector) -> Vector:
    """The changes that leave the least worst difference (Chebyshev's fit, by a linear programme)."""
    rows, columns = effects.shape
    cost = np.concatenate([np.zeros(columns), [1.0]])
    ones = np.ones((rows, 1))
    sides = np.vstack([np.hstack([-effects, -ones]), np.hstack([effects, -ones])])
    free = [(None, None)] * columns + [(0, None)]
    done = linprog(cost, A_ub=sides, b_ub=np.concatenate([-off, off]), bounds=free)
    assert done.x is not None, "there is always a fit, if a bad one"
    return np.asarray(done.x[:columns], dtype=np.float64)


def _instead(effects: Matrix, off: Vector, rivals: Sequence[_Account], best: _Account) -> dict[int, list[int]]:
    """For each of the best, the numbers that explain as much when they stand in its place."""
    found: dict[int, list[int]] = {}
    for one in rivals:
        gone, new = set(best.numbers) - set(one.numbers), set(one.numbers) - set(best.numbers)
        if len(gone) == 1 and one.left == best.left and one.squares <= best.squares + DOUBT:
            found.setdefault(gone.pop(), []).append(new.pop())
    return found
