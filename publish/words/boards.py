"""What a board layout says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from model.board_plan import StockPlan
from model.boards.pieces import Cut, LaidBoard, Layout, Rules
from plans.units import System
from publish.edition import Edition
from publish.words.names import capital, counted, in_figures, listed, number

NEAR = 0.01  # mm
# mm: shorter wood is not ripped on a table saw; 12 in, told in round millimetres on the safe side (common practice)
SHORT: dict[System, float] = {"inch": 304.8, "mm": 310.0}
MANY = 4  # kinds of part that a cut is said to part by name


def plan_summary(edition: Edition, plan: StockPlan) -> tuple[str, str]:
    """A heading, and how many boards it takes, how well they are used, and how near that is to the least possible."""
    layout = plan.layout
    used = f"{layout.yield_share * 100:.0f} % of the {plan.of}s ends up in parts"
    text = f"{_taken(layout, plan.of)}; {used}."
    if layout.missing:
        missing = ", ".join(f"{count} × {mark}" for mark, count in layout.missing)
        text += f" These fit on no {plan.of} listed: {missing}. Look for larger ones."
    text += offcut_words(edition, layout)
    if plan.of == "sheet" and plan.wood in _grained(edition):
        text += " The face grain runs from left to right."
    return f"{capital(plan.wood)}, {plan.stock}", text + slant_words(edition, plan)


def reading_words(edition: Edition, plans: Sequence[StockPlan]) -> str:
    """How to read the layouts: what is drawn, what comes off first, and from where a cut is measured."""
    said = [_drawn_words(edition, rules, of) for of in ("board", "sheet") for rules in _rules_of(plans, of)]
    kerf = edition.measure(edition.piece.design.spec.saw.kerf)
    said.append(
        f"Take the cuts in the order of the list. Each is measured on the piece that lies on the saw, from the end or "
        f"edge named; the saw cut, {kerf} wide, falls beyond the measure. What comes off on that side is named."
    )
    said.append("Dark is waste; light is an offcut worth keeping.")
    if any(laid.board.defects for plan in plans for laid in plan.layout.boards):
        said.append("Crossed out are defects, which are cut out.")
    return " ".join(said)


def _rules_of(plans: Sequence[StockPlan], of: str) -> list[Rules]:
    """The rules that all layouts of boards, or of sheets, share; none where there are none."""
    return [plan.rules for plan in plans if plan.of == of][:1]


def _drawn_words(edition: Edition, rules: Rules, of: str) -> str:
    trimmed = edition.measure(rules.end_trim)
    if of == "sheet":
        return f"Sheets are drawn with the sizes that are cut first, {trimmed} trimmed off each edge."
    room = edition.measure(edition.piece.design.spec.saw.edge_allowance)
    return (
        f"Boards are drawn with the rough sizes, with {room} of width for jointing, and {trimmed} trimmed off each end."
    )


def _grained(edition: Edition) -> set[str]:
    """Sheet goods with a veneer on either face."""
    return {part.spec.made_of for part in edition.piece.parts.values() if part.spec.has_face_grain}


def short_rips(edition: Edition, laid: LaidBoard) -> str:
    """Which cuts rip what is too short to be held to the fence of a table saw; empty where none does."""
    least = SHORT[edition.units.name]
    short = [cut.number for cut in laid.cuts if cut.direction == "rip" and cut.length < least - NEAR]
    if not short:
        return ""
    which = f"cut {short[0]} rips a piece" if len(short) == 1 else f"cuts {_runs(short)} rip pieces"
    return f"Caution: {which} shorter than {edition.measure(least)}. Use a bandsaw or a hand saw, not a table saw."


def _runs(numbers: Sequence[int]) -> str:
    """`3, 5 and 7 to 9`."""
    runs: list[list[int]] = []
    for one in numbers:
        if runs and one == runs[-1][-1] + 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    said = [[f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(one) for one in run] for run in runs]
    return listed(words for run in said for words in run)


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
        return in_figures(len(inside), "blank")
    return ", ".join(f"{count} × {mark}" if count > 1 else mark for mark, count in found.items())
