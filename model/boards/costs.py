"""What boards cost when layouts are compared, and how far a layout is from the cheapest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, gcd

from model.boards.pieces import Board, Layout
from model.boards.ticks import ticks

HAND = 1e-3  # cost of all boards on hand together, against the dearest board to buy
FINEST = 1e-5  # steps of cost finer than this are not told apart
SAME = 1e-6


@dataclass(frozen=True)
class Costs:
    """Cost of each board, the dearest to buy being 1.

    `hand`: cost of all boards on hand together. `unit`: what is bought costs a multiple of it (0: unknown).
    """

    each: tuple[float, ...]
    counted: tuple[bool, ...]  # to buy, or on hand where none is for sale
    hand: float
    unit: float

    def rounded_up(self, least: float) -> float:
        """A cost no layout can go under, raised to the next that a layout can have."""
        bought = max(0.0, least - self.hand)
        return max(least, ceil(bought / self.unit - SAME) * self.unit) if self.unit else least

    def judged(self, layout: Layout, boards: Sequence[Board], least: float) -> Layout:
        """The layout with its bound and whether it is proven, given a cost that no layout can go under."""
        bought = max(0.0, self.rounded_up(least) - self.hand) if not self.unit else self._bought(least)
        cost = sum(
            laid.count * cost
            for laid in layout.boards
            for board, cost, counted in zip(boards, self.each, self.counted, strict=True)
            if counted and laid.board is board
        )
        return replace(layout, bound=ceil(bought - SAME), proven=not layout.missing and cost <= bought + SAME)

    def _bought(self, least: float) -> float:
        return max(0, ceil((least - self.hand) / self.unit - SAME)) * self.unit


def costs_of(boards: Sequence[Board]) -> Costs:
    """By price if every board to buy has one, else by face (or length); boards on hand cost next to nothing."""
    counted = tuple(not board.on_hand for board in boards)
    if not any(counted):
        counted = (True,) * len(boards)
    for_sale = [board for board, counts in zip(boards, counted, strict=True) if counts]
    by_price = all((board.price or 0) > 0 for board in for_sale)
    raw = [ticks(board.price or 0.0) if by_price else _face(board) for board in for_sale]
    dearest = max(raw, default=1) or 1
    on_hand = [board for board, counts in zip(boards, counted, strict=True) if not counts]
    faces = sum((board.available or 0) * _face(board) for board in on_hand) or 1
    prices = iter(raw)
    each = tuple(
        next(prices) / dearest if counts else HAND * _face(board) / faces
        for board, counts in zip(boards, counted, strict=True)
    )
    unit = gcd(*raw) / dearest if raw else 0.0
    return Costs(each, counted, HAND if on_hand else 0.0, unit if unit >= FINEST else 0.0)


def _face(board: Board) -> int:
    return ticks(board.length) * (ticks(board.width) or 1)
