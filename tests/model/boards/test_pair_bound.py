"""The bound by pairs of weights: closed formulas, and sheets cut up at random, which can be put together again."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.boards.bounds import fewest_boards
from model.boards.pair_bound import paired_bound


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.integers(5, 100), st.integers(5, 100), st.integers(400, 900))
def test_parts_all_alike_are_bounded_by_how_many_a_sheet_holds(length, width, count) -> None:
    """Closed formula: a sheet of 100 x 80 holds floor(100 / length) x floor(80 / width)."""
    if width > 80:
        width -= 20
    each = (100 // length) * (80 // width)
    assert paired_bound([(length, width, count)], (100, 80)) == pytest.approx(count / each, rel=1e-5)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.integers(0, 10**6), st.integers(1, 4))
def test_sheets_cut_up_at_random_are_never_bounded_above_their_number(seed, sheets) -> None:
    """The parts came from so many sheets, so a bound above that number is wrong."""
    chance = Random(seed)
    parts: list[tuple[int, int, int]] = []
    for _ in range(sheets):
        pieces = [(100, 60)]
        for _ in range(7):
            long, wide = pieces.pop(chance.randrange(len(pieces)))
            if chance.random() < 0.5 and long > 4:
                at = chance.randint(2, long - 2)
                pieces += [(at, wide), (long - at, wide)]
            elif wide > 4:
                at = chance.randint(2, wide - 2)
                pieces += [(long, at), (long, wide - at)]
            else:
                pieces.append((long, wide))
        parts += [(long, wide, 1) for long, wide in pieces]
    bound = paired_bound(parts, (100, 60))
    assert bound <= sheets + 1e-6
    # and no weaker than area, which is that number exactly where nothing was lost
    assert bound >= sheets - 1e-4


def test_weights_worked_out_find_more_than_those_from_formulas() -> None:
    """By hand: nothing goes beside a part of 51 on a sheet of 100, and over it only 50 on 50; so the one of 50 x 66 and
    the four of 51 x 51 take a sheet each, the five of 51 x 50 two and a half: eight sheets."""
    parts = [(50, 66, 1), (51, 50, 5), (51, 51, 4)]
    assert paired_bound(parts, (100, 100)) == pytest.approx(7.5, abs=1e-4)
    assert fewest_boards([(*part, False) for part in parts], (100, 100)) == 7
