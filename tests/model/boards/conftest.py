"""Sawing a layout as its cut list says, with nothing taken over from the code that made it."""

from collections import Counter
from collections.abc import Callable, Sequence

import pytest

from model.boards.pieces import Board, Layout, Rules, Wanted

Box = tuple[int, int, int, int]


def nm(mm: float) -> int:
    return round(mm * 10**6)


def box(thing) -> Box:
    return nm(thing.x), nm(thing.y), nm(thing.x) + nm(thing.length), nm(thing.y) + nm(thing.width)


def area(b: Box) -> int:
    return (b[2] - b[0]) * (b[3] - b[1])


def sawn(laid, rules: Rules) -> tuple[list[Box], int]:
    """The pieces after all cuts, and the face that went into sawdust."""
    kerf = nm(rules.kerf)
    pieces = [(0, 0, nm(laid.board.length), nm(laid.board.width))]
    dust = 0
    for number, cut in enumerate(laid.cuts, 1):
        assert cut.number == number
        piece = box(cut)
        pieces.remove(piece)  # the piece named is really there, so the cut runs from edge to edge
        x0, y0, x1, y1 = piece
        at = nm(cut.at)
        axis = {"crosscut": 0, "rip": 1}[cut.direction]
        assert piece[axis] <= at < piece[axis + 2]
        beyond = min(at + kerf, piece[axis + 2])
        halves = [(x0, y0, at, y1), (beyond, y0, x1, y1)] if axis == 0 else [(x0, y0, x1, at), (x0, beyond, x1, y1)]
        dust += (beyond - at) * (y1 - y0 if axis == 0 else x1 - x0)
        pieces += [half for half in halves if half[0] < half[2] and half[1] < half[3]]
    return pieces, dust


def stages(laid) -> int:
    """How often the direction of sawing changes from a board to its smallest piece, trimming left out."""
    return max((cut.stage for cut in laid.cuts), default=0)


def checked(
    layout: Layout, wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules, allowance: float = 0
) -> None:
    """Everything that must hold of any layout; parts are `allowance` wider than wanted."""
    made: Counter[str] = Counter()
    by_mark = {part.mark: part for part in wanted}
    homes: dict[str, list[int]] = {}
    used: Counter[str] = Counter()
    for number, laid in enumerate(layout.boards):
        used[laid.board.name] += laid.count
        pieces, dust = sawn(laid, rules)
        parts = [box(placed) for placed in laid.placed]
        rests = [box(rest) for rest in laid.offcuts]
        assert sorted(pieces) == sorted(parts + rests)
        assert sum(map(area, pieces)) + dust == nm(laid.board.length) * nm(laid.board.width)
        for i, a in enumerate(parts):
            for b in parts[:i]:
                assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert stages(laid) <= max(rules.stages, 1)
        for placed in laid.placed:
            made[placed.mark] += laid.count
            part = by_mark[placed.mark]
            size = (nm(part.length), nm(part.width + allowance))
            assert not (part.grain and placed.turned)
            assert (nm(placed.length), nm(placed.width)) == (size[::-1] if placed.turned else size)
            homes.setdefault(part.same_board or "", []).append(number)
        check_defects(laid)
    for home, numbers in homes.items():
        assert not home or (len(set(numbers)) == 1 and layout.boards[numbers[0]].count == 1)
    wanted_count = Counter[str]()
    for part in wanted:
        wanted_count[part.mark] += part.count
    assert made + Counter(dict(layout.missing)) == +wanted_count
    for board in boards:
        if board.available is not None:
            assert used[board.name] <= board.available
    if not layout.missing:
        assert layout.bought >= layout.bound or all(board.on_hand for board in boards)


def check_defects(laid) -> None:
    for defect in laid.board.defects:
        x0, y0, x1, y1 = defect if len(defect) == 4 else (defect[0], 0, defect[1], laid.board.width)
        for thing in [*laid.placed, *(rest for rest in laid.offcuts if rest.kept)]:
            a = box(thing)
            assert a[2] <= nm(x0) or nm(x1) <= a[0] or a[3] <= nm(y0) or nm(y1) <= a[1], (defect, thing)


@pytest.fixture(scope="session")
def check() -> Callable[..., None]:
    return checked
