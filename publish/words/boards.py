"""What a board layout says."""

from __future__ import annotations

from model.board_plan import StockPlan
from model.boards.pieces import Cut, LaidBoard
from publish.edition import Edition
from publish.words.names import capital, counted


def plan_summary(edition: Edition, plan: StockPlan) -> tuple[str, str]:
    """A heading, and how many boards it takes, how well they are used, and how near that is to the least possible."""
    layout = plan.layout
    title = f"{capital(plan.wood)}, {plan.stock}"
    bought = layout.bought or layout.used
    proof = _proof(bought, layout.bound)
    used = f"{layout.yield_share * 100:.0f} % of the {plan.of}s ends up in parts"
    text = f"{capital(counted(bought, plan.of))}; {proof}; {used}."
    if layout.missing:
        missing = ", ".join(f"{count} × {mark}" for mark, count in layout.missing)
        text += f" These fit on no {plan.of} listed: {missing}. Look for larger ones."
    rules = plan.rules
    text += (
        f" Drawn at the rough sizes, with a saw kerf of {edition.measure(rules.kerf)} and "
        f"{edition.measure(rules.end_trim)} trimmed off each end. Dark: waste. Light: offcuts worth keeping."
    )
    return title, text


def _proof(boards: int, bound: int) -> str:
    if bound >= boards:
        return "fewer is impossible" if boards > 1 else "one is the least"
    return f"at least {bound} are needed whatever the layout"


def board_title(edition: Edition, laid: LaidBoard, number: int, of: str = "board") -> str:
    """`Board 1: 8 × 96 in, two cut alike`."""
    board = laid.board
    size = f"{edition.number(board.width)} × {edition.measure(board.length)}"
    times = "" if laid.count == 1 else f", {laid.count} cut alike"
    where = ", on hand" if board.on_hand else ""
    return f"{capital(of)} {number}: {size}{where}{times}"


def cut_words(edition: Edition, cut: Cut) -> str:
    """`crosscut at 49`, from the left end or the lower edge of the piece on the saw."""
    if cut.direction == "crosscut":
        return f"crosscut {edition.number(cut.at - cut.x)} from the left end"
    return f"rip {edition.number(cut.at - cut.y)} from the lower edge"
