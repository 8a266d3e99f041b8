"""Proofs: parts that were cut from known boards can be cut from them again, so no bound may come out above those."""

from random import Random

import pytest

from model.boards.boards import lay_out_boards
from model.boards.costs import costs_of
from model.boards.pieces import Board, Rules, Wanted
from model.boards.proof import fewest_to_buy, least_cost, priced_cost
from model.boards.task import task_of

KINDS = ((1000, 200), (600, 150))


def cut_up(chance: Random, length: int, width: int) -> list[tuple[int, int]]:
    """A board cut from edge to edge until it is in five or six pieces, none lost."""
    pieces = [(length, width)]
    while len(pieces) < 5:
        long, wide = pieces.pop(max(range(len(pieces)), key=lambda i: pieces[i][0] * pieces[i][1]))
        if long > wide:
            at = chance.randrange(long // 4, long // 2, 10)
            pieces += [(at, wide), (long - at, wide)]
        else:
            at = chance.randrange(wide // 4, wide // 2, 5)
            pieces += [(long, at), (long, wide - at)]
    return pieces


@pytest.mark.parametrize("seed", range(12))
def test_no_bound_is_above_the_boards_that_the_parts_were_cut_from(seed) -> None:
    """Whatever the prices, and whether or not there are only so many of a board. Cost goes by area, the largest 1."""
    chance = Random(seed)
    used = [KINDS[0]] * chance.randint(1, 2) + [KINDS[1]] * chance.randint(0, 2)
    sizes = [piece for board in used for piece in cut_up(chance, *board)]
    wanted = [Wanted(f"P{n}", long, wide) for n, (long, wide) in enumerate(sizes)]
    true_cost = sum(length * width for length, width in used) / (1000 * 200)
    for limit in (None, 2):
        boards = [Board("large", *KINDS[0]), Board("small", *KINDS[1], count=limit)]
        costs = costs_of(boards)
        task = task_of(wanted, boards, Rules(kerf=0), ("rip",), costs)
        assert least_cost(task, boards, costs) <= true_cost + 1e-9
        assert fewest_to_buy(task, boards, costs) <= len(used)
        for _ in range(3):
            prices = [long * wide / 200_000 * chance.uniform(0.7, 1.3) for long, wide in sizes]
            assert priced_cost(task, costs, prices) <= true_cost + 1e-9


def test_the_cheapest_of_two_sizes_is_proven() -> None:
    """By hand: two of 1000 go on one board of 2100, or on two of 1100, which are 2200 together; area alone says that
    2000 could do."""
    boards = [Board("short", 1100, 100), Board("long", 2100, 100)]
    layout = lay_out_boards([Wanted("A", 1000, 60, 2)], boards, Rules())
    assert [laid.board.name for laid in layout.boards] == ["long"] and layout.proven


def test_boards_of_several_sizes_are_bounded_by_the_largest() -> None:
    """By hand: each of three is longer than half of the longest board and wider than half of the widest."""
    boards = [Board("short", 1500, 150), Board("long", 2000, 200)]
    layout = lay_out_boards([Wanted("A", 1100, 110, 3)], boards, Rules())
    assert (layout.used, layout.bound) == (3, 3)
