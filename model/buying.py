"""What the layouts come to at the yard: boards and sheets of real sizes, how many of each, and what they measure."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from model.board_plan import StockPlan, board_plans
from model.piece import Piece
from model.takeoff import measure_of


@dataclass(frozen=True)
class Boards:
    """Boards or sheets of one size (mm), and how many; `on_hand` where they are there already."""

    width: float
    length: float
    count: int
    on_hand: bool


@dataclass(frozen=True)
class Purchase:
    """Boards of one wood and rough thickness, or sheets of one kind, as they are laid out.

    `board_feet` and `cubic_metres` are those of the boards to buy; None for sheets.
    """

    plan: StockPlan
    boards: tuple[Boards, ...]
    board_feet: float | None
    cubic_metres: float | None

    @property
    def count(self) -> int:
        """Boards or sheets to buy."""
        return sum(boards.count for boards in self.boards if not boards.on_hand)


def purchases(piece: Piece) -> tuple[Purchase, ...]:
    """One for each layout, in the order of the layouts."""
    return tuple(_purchase(plan) for plan in board_plans(piece))


def purchase_of(piece: Piece, wood: str, stock: str) -> Purchase | None:
    """The purchase of one stock; None where the design states no stock, so that nothing could be laid out."""
    return next((one for one in purchases(piece) if (one.plan.wood, one.plan.stock) == (wood, stock)), None)


def _purchase(plan: StockPlan) -> Purchase:
    count: Counter[tuple[float, float, bool]] = Counter()
    for laid in plan.layout.boards:
        count[laid.board.width, laid.board.length, laid.board.on_hand] += laid.count
    boards = tuple(Boards(width, length, n, on_hand) for (width, length, on_hand), n in sorted(count.items()))
    if plan.of == "sheet":
        return Purchase(plan, boards, None, None)
    face = sum(one.width * one.length * one.count for one in boards if not one.on_hand)
    return Purchase(plan, boards, *measure_of(face, plan.stock, 0.0))
