"""What boards and sheets share: parts and boards made ready for the search, and its answer made a layout."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from model.boards.costs import costs_of
from model.boards.filling import Filled
from model.boards.pieces import Board, CutDirection, LaidBoard, Layout, Rules, Wanted
from model.boards.proof import fewest_to_buy, least_cost, paired_cost, priced_cost
from model.boards.search import begun, improved
from model.boards.sequence import Rect, laid_board
from model.boards.task import Task, task_of


def lay_out(wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection]) -> Layout:
    """Parts onto boards or sheets; `first`: the directions cutting may begin with, the liked one first."""
    costs = costs_of(boards)
    task = task_of(wanted, boards, rules, first, costs)
    least = least_cost(task, boards, costs)
    search = begun(task.shop, task.demands, task.stocks, rules.effort, costs)
    if not search.is_enough(least):
        least = max(least, paired_cost(task, costs))
        improved(search, least)
    filled = search.best
    missing = _missing(task, filled)
    if not missing and search.prices and costs.rounded_up(search.priced) > costs.rounded_up(least):
        least = max(least, priced_cost(task, costs, search.prices))
    laid = _laid(task, filled, boards, rules, first)
    layout = costs.judged(Layout(laid, 0, False, missing), boards, least)
    return replace(layout, bound=max(layout.bound, fewest_to_buy(task, boards, costs)))


def _laid(
    task: Task, filled: Sequence[Filled], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection]
) -> tuple[LaidBoard, ...]:
    """Boards with their cuts, alike ones together, in the order of the boards given, the fullest first."""
    alike: Counter[tuple[int, tuple[Rect, ...]]] = Counter()
    for one in sorted(filled, key=lambda b: (b.stock, -b.area, b.taken)):
        rects = tuple(Rect(task.wanted[lay.kind].mark, lay.box, lay.turned) for lay in one.lays)
        alike[one.stock, rects] += 1
    laid = []
    for (stock, rects), count in alike.items():
        one_board = laid_board(boards[stock], rects, rules, first)
        laid.append(LaidBoard(one_board.board, one_board.placed, one_board.cuts, one_board.offcuts, count))
    return tuple(laid)


def _missing(task: Task, filled: Sequence[Filled]) -> tuple[tuple[str, int], ...]:
    left: Counter[str] = Counter()
    for part in task.wanted:
        left[part.mark] += part.count
    for board in filled:
        left.subtract(task.wanted[lay.kind].mark for lay in board.lays)
    return tuple(sorted((mark, n) for mark, n in left.items() if n))
