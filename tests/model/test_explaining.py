"""Which numbers explain differences: against formulas, exhaustive search and SciPy's own fits.

Differences are counted in what a measuring may be out by, as in the module that is tested.
"""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, lsq_linear

from model.explaining import explain, fit, least_squares

MOST = 30.0


def test_a_straight_line() -> None:
    """The slope and the intercept of least squares by their closed formulas (any textbook, from memory)."""
    x = np.array([0.0, 1.0, 2.0, 3.0, 5.0])
    y = np.array([0.2, 1.1, 1.8, 3.3, 4.9])
    slope = ((x - x.mean()) * (y - y.mean())).sum() / ((x - x.mean()) ** 2).sum()
    found = least_squares(np.column_stack([np.ones(5), x]), y)
    assert found == pytest.approx([y.mean() - slope * x.mean(), slope])


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_fit_is_that_of_scipy(seed: int) -> None:
    """Where least squares leave nothing beyond 1 they are the fit; else, where that can be, nothing is beyond 1."""
    some = np.random.default_rng(seed)
    effects, off = some.normal(size=(8, 3)), some.uniform(-1.5, 1.5, 8)
    found, squares = fit(effects, off), lsq_linear(effects, off).x
    sides = np.vstack([effects, -effects])
    can_be = linprog(
        np.zeros(3), A_ub=sides, b_ub=np.concatenate([off + 1, 1 - off]), bounds=[(None, None)] * 3
    ).success
    if np.abs(off - effects @ squares).max() <= 1 or not can_be:
        assert found == pytest.approx(squares, abs=1e-6)
    else:
        assert np.abs(off - effects @ found).max() <= 1 + 1e-5


def shortest(effects: np.ndarray, off: np.ndarray) -> int:
    """How much the shortest account has to tell: every choice of numbers and of differences left, by their count."""
    rows, columns = effects.shape
    for length in range(rows + 1):
        for numbers in (n for size in range(length + 1) for n in combinations(range(columns), size)):
            for left in combinations(range(rows), length - len(numbers)):
                kept = [row for row in range(rows) if row not in left]
                own, some = effects[np.ix_(kept, numbers)], off[kept]
                if not numbers:
                    if (np.abs(some) <= 1).all():
                        return length
                    continue
                sides, to = np.vstack([own, -own]), np.concatenate([some + 1, 1 - some])
                if linprog(np.zeros(len(numbers)), A_ub=sides, b_ub=to, bounds=[(-MOST, MOST)] * len(numbers)).success:
                    return length
    raise AssertionError("leaving every difference always does")


@pytest.mark.parametrize("seed", range(8))
def test_no_account_is_shorter(seed: int) -> None:
    some = np.random.default_rng(seed)
    effects = some.choice([0.0, 1.0, -1.0, 2.0], size=(5, 4))
    off = effects @ (some.uniform(-4, 4, 4) * (some.random(4) < 0.5)) + some.uniform(-1, 1, 5)
    off[0] += 6.0 * (seed % 2)
    found = explain(effects, off, np.full(4, MOST))
    assert len(found.chosen) + len(found.left) == shortest(effects, off)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000))
def test_what_was_hidden_is_found(seed: int) -> None:
    """Three of twelve numbers off, sixteen differences, errors of measuring within 1: the three, and how much."""
    some = np.random.default_rng(seed)
    effects = some.normal(size=(16, 12)) * 2
    hidden = np.sort(some.choice(12, 3, replace=False))
    change = np.zeros(12)
    change[hidden] = some.choice([-1, 1], 3) * some.uniform(3, 8, 3)
    found = explain(effects, effects @ change + some.uniform(-1, 1, 16), np.full(12, MOST))
    assert found.chosen == tuple(hidden) and not found.left
    # of least squares no change is off by more than the errors times the pseudo-inverse
    reach = np.abs(np.linalg.pinv(effects[:, hidden])).sum(axis=1)
    assert (np.abs(np.array(found.change) - change[hidden]) <= 2 * reach).all()


def test_a_slip_is_left() -> None:
    effects = np.array([[1.0, 0.0], [1.0, 1.0], [2.0, 0.0], [0.0, 1.0], [1.0, -1.0]])
    off = effects @ [4.0, 0.0] + [0.3, -0.2, 0.1, 0.0, 0.4]
    off[4] += 9.0
    found = explain(effects, off, np.full(2, MOST))
    assert (found.chosen, found.left) == ((0,), (4,)) and found.change == pytest.approx([4.05], abs=0.2)


def test_twins_cannot_be_told_apart() -> None:
    effects = np.array([[1.0, 2.0, 0.0], [1.0, 2.0, 1.0], [0.5, 1.0, 0.0]])
    found = explain(effects, effects @ [4.0, 0.0, 0.0], np.full(3, MOST))
    assert set(found.chosen) | set(found.instead[found.chosen[0]]) == {0, 1} and len(found.chosen) == 1


@given(st.integers(0, 10_000))
def test_nothing_is_made_of_errors_of_measuring(seed: int) -> None:
    some = np.random.default_rng(seed)
    found = explain(some.normal(size=(6, 9)), some.uniform(-1, 1, 6), np.full(9, MOST))
    assert (found.chosen, found.left, found.instead) == ((), (), {})


def test_a_number_is_not_stretched() -> None:
    """What would have to change by more than it may is no cause."""
    found = explain(np.array([[0.01], [0.01]]), np.array([5.0, 5.0]), np.array([20.0]))
    assert (found.chosen, found.left) == ((), (0, 1))
