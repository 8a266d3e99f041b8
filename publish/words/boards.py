"""What a board layout says."""

from __future__ import annotations

from collections import Counter

from model.board_plan import StockPlan
from model.boards.pieces import Cut, LaidBoard, Layout
from publish.edition import Edition
from publish.words.names import capital, counted, listed, number

NEAR = 0.01  # mm
MANY = 4  # kinds of part that a cut is said to part by name


def plan_summary(edition: Edition, plan: StockPlan) -> tuple[str, str]:
    """A heading, and how many boards it takes, how well they are used, and how near that is to the least possible."""
    layout, rules = plan.layout, plan.rules
    used = f"{layout.yield_share * 100:.0f} % of the {plan.of}s ends up in parts"
    text = f"{_taken(layout, plan.of)}; {used}."
    if layout.missing:
        missing = ", ".join(f"{count} × {mark}" for mark, count in layout.missing)
        text += f" These fit on no {plan.of} listed: {missing}. Look for larger ones."
    text += offcut_words(edition, layout)
    saw = edition.piece.design.spec.saw
    drawn = "Drawn at the sizes that are cut first" if plan.of == "sheet" else "Drawn at the rough sizes"
    room = "" if plan.of == "sheet" else f" with {edition.measure(saw.edge_allowance)} in the width for jointing,"
    text += (
        f" {drawn},{room} with a saw kerf of {edition.measure(rules.kerf)} and {edition.measure(rules.end_trim)} "
        "trimmed off each end. Dark: waste. Light: offcuts worth keeping."
    )
    if any(laid.board.defects for laid in layout.boards):
        text += " Crossed out: defects, which are cut out."
    return f"{capital(plan.wood)}, {plan.stock}", text + slant_words(edition, plan)


def _taken(layout: Layout, of: str) -> str:
    """How many boards it takes, those on hand apart from those to buy, and how near that is to the least possible."""
    on_hand = sum(laid.count for laid in layout.boards if laid.board.on_hand)
    if on_hand and not layout.bought and not layout.missing:
        return f"Nothing to buy: {counted(on_hand, of)} on hand {'holds' if on_hand == 1 else 'hold'} all the parts"
    if on_hand and layout.bought:
        bought = capital(counted(layout.bought, of))
        return f"{bought} to buy, beside {number(on_hand)} on hand: {_proof(layout, of)}"
    return f"{capital(counted(layout.bought or layout.used, of))}: {_proof(layout, of)}"


def slant_words(edition: Edition, plan: StockPlan) -> str:
    """Where the cut between two parts in one blank begins and ends, both from the lower edge of the blank."""
    widths = {part.mark: part.width for laid in plan.layout.boards for part in laid.placed}
    said = ""
    for mark, slant in plan.slants.items():
        if mark in widths:
            low, high = ((widths[mark] + way * slant) / 2 for way in (-1, 1))
            said += (
                f" Saw {mark} apart on a line from {edition.measure(low)} above the lower edge at the left end to "
                f"{edition.measure(high)} at the right end."
            )
    return said


def offcut_words(edition: Edition, layout: Layout) -> str:
    """The offcuts worth keeping, those of one printed size together, the largest first."""
    sizes: Counter[str] = Counter()
    for rest, count in layout.offcuts:
        sizes[f"{edition.number(rest.width)} × {edition.measure(rest.length)}"] += count
    if not sizes:
        return " No offcut is worth keeping."
    said = listed(f"{count} of {size}" if count > 1 else size for size, count in sizes.items())
    return f" Offcuts worth keeping: {said}."


def _proof(layout: Layout, of: str) -> str:
    """How near the layout is to the least possible."""
    boards = layout.bought or layout.used
    if layout.bound >= boards:
        return "one is the least" if boards == 1 else f"fewer than {number(boards)} is impossible"
    if layout.proven:
        return "no cheaper choice of sizes can hold the parts"
    at_least = number(max(1, layout.bound))
    return f"at least {at_least} {'is' if layout.bound <= 1 else 'are'} needed, however they are cut"


def board_title(edition: Edition, laid: LaidBoard, number: int, of: str = "board") -> str:
    """`Board 1: 8 × 96 in, two cut alike`."""
    board = laid.board
    size = f"{edition.number(board.width)} × {edition.measure(board.length)}"
    times = "" if laid.count == 1 else f", {laid.count} cut alike"
    where = ", on hand" if board.on_hand else ""
    return f"{capital(of)} {number}: {size}{where}{times}"


def cut_words(edition: Edition, laid: LaidBoard, cut: Cut) -> str:
    """`crosscut 49 from the left end: A`; what comes off at that side, or that it only trims."""
    if cut.direction == "crosscut":
        act = f"crosscut {edition.number(cut.at - cut.x)} from the left end"
    else:
        act = f"rip {edition.number(cut.at - cut.y)} from the lower edge"
    comes = _off(laid, cut)
    if cut.stage == 0:
        return f"{act}: trim"
    return f"{act}: {comes or ('defect' if _spoilt(laid, cut) else 'offcut')}"


def _corner(cut: Cut) -> tuple[float, float]:
    """The far corner of what comes off at the side of a cut that is measured (mm)."""
    if cut.direction == "crosscut":
        return cut.at, cut.y + cut.width
    return cut.x + cut.length, cut.at


def _spoilt(laid: LaidBoard, cut: Cut) -> bool:
    """Whether it is what is crossed out that comes off, with nothing worth keeping beside it."""
    right, top = _corner(cut)
    if any(r.kept and cut.x - NEAR <= r.x < right - NEAR and cut.y - NEAR <= r.y < top - NEAR for r in laid.offcuts):
        return False
    boxes = [d if len(d) == 4 else (d[0], 0.0, d[1], laid.board.width) for d in laid.board.defects]
    return any(d[0] < right and d[2] > cut.x and d[1] < top and d[3] > cut.y for d in boxes)


def _off(laid: LaidBoard, cut: Cut) -> str:
    """The parts on the side of a cut that is measured; a long strip by how many parts are in it."""
    right, top = _corner(cut)
    inside = [
        part.mark
        for part in laid.placed
        if cut.x - NEAR <= part.x < right - NEAR and cut.y - NEAR <= part.y < top - NEAR
    ]
    found = Counter(inside)
    if len(found) > MANY:
        return f"{len(inside)} blanks"
    return ", ".join(f"{count} × {mark}" if count > 1 else mark for mark, count in found.items())
