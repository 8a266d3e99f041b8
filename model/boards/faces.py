"""What boards and sheets share: parts and boards made ready for the search, and its answer made a layout."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from model.boards.bounds import fewest_boards
from model.boards.costs import Costs, costs_of
from model.boards.filling import Filled, Stock
from model.boards.pair_bound import paired_bound
from model.boards.pieces import Board, CutDirection, LaidBoard, Layout, Rules, Wanted
from model.boards.regions import WAYS, Kind, Region, Shop, Unit, clear_regions
from model.boards.search import begun, improved
from model.boards.sequence import AXIS, Rect, laid_board
from model.boards.ticks import Face, face_of, ticks
from model.boards.value import Valued, manageable, most_valuable

PROOF = 800  # blocks joined for a proof


@dataclass(frozen=True)
class _Ready:
    """The task in grown ticks: wanted parts by kind, units with their demands, boards with their faces."""

    wanted: tuple[Wanted, ...]
    shop: Shop
    demands: tuple[int, ...]
    faces: tuple[Face, ...]
    stocks: tuple[Stock, ...]


def lay_out(wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection]) -> Layout:
    """Parts onto boards or sheets; `first`: the directions cutting may begin with, the liked one first."""
    costs = costs_of(boards)
    ready = _ready(wanted, boards, rules, first, costs)
    least = _least_cost(ready, boards, costs)
    search = begun(ready.shop, ready.demands, ready.stocks, rules.effort, costs)
    if not search.is_enough(least):
        least = max(least, _paired_cost(ready, costs))
        improved(search, least)
    filled = search.best
    missing = _missing(ready, filled)
    if len(boards) == 1 and not missing and costs.rounded_up(search.priced) > costs.rounded_up(least):
        least = max(least, costs.each[0] * _priced_bound(ready, search.prices))
    laid = _laid(ready, filled, boards, rules, first)
    return costs.judged(Layout(laid, 0, False, missing), boards, least)


def _ready(
    wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection], costs: Costs
) -> _Ready:
    faces = tuple(face_of(board, rules) for board in boards)
    kinds = tuple(_kind(part, ticks(rules.kerf)) for part in wanted)
    demands: dict[Unit, int] = {}
    together: dict[str, list[int]] = {}
    for number, part in enumerate(wanted):
        if part.same_board is None:
            demands[Unit((number,), kinds[number].area)] = part.count
        else:
            together.setdefault(part.same_board, []).extend([number] * part.count)
    for numbers in together.values():
        members = tuple(sorted(numbers, key=lambda number: (-kinds[number].area, number)))
        if members:
            demands[Unit(members, sum(kinds[number].area for number in members))] = 1
    stocks = tuple(
        Stock(_starts(face, first), cost, board.available)
        for board, face, cost in zip(boards, faces, costs.each, strict=True)
    )
    shop = Shop(kinds, tuple(demands), rules.stages)
    return _Ready(tuple(wanted), shop, tuple(demands.values()), faces, stocks)


def _kind(part: Wanted, kerf: int) -> Kind:
    along, across = ticks(part.length) + kerf, ticks(part.width) + kerf
    straight = (along, across, False)
    return Kind((straight,) if part.grain or along == across else (straight, (across, along, True)))


def _starts(face: Face, first: Sequence[CutDirection]) -> tuple[tuple[Region, ...], ...]:
    """The free regions to begin with: for each first direction, each way round the defects."""
    x0, y0, x1, y1 = face.clear
    whole = [(x0, y0, x1 - x0, y1 - y0, AXIS[direction], 1) for direction in first]
    starts = [tuple(clear_regions(region, face.defects, way)) for region in whole for way in WAYS]
    return tuple(dict.fromkeys(starts))


def _least_cost(ready: _Ready, boards: Sequence[Board], costs: Costs) -> float:
    """A cost that no layout can go under: dual-feasible functions for boards all alike, else sheer area."""
    parts = [
        (kind.ways[0][0], kind.ways[0][1], part.count, len(kind.ways) > 1)
        for kind, part in zip(ready.shop.kinds, ready.wanted, strict=True)
    ]
    sizes = [(face.clear[2] - face.clear[0], face.clear[3] - face.clear[1]) for face in ready.faces]
    parts = [part for part in parts if any(_fits(part, size) for size in sizes)]
    if len(boards) == 1:
        return costs.each[0] * fewest_boards(parts, sizes[0])
    area = sum(length * width * count for length, width, count, _ in parts)
    least = 0.0
    for cost, board, (length, width) in sorted(
        zip(costs.each, boards, sizes, strict=True), key=lambda row: row[0] / max(1, row[2][0] * row[2][1])
    ):
        have = board.available
        used = area if have is None else min(area, have * length * width)
        least += cost * used / max(1, length * width)
        area -= used
    return least


def _paired_cost(ready: _Ready, costs: Costs) -> float:
    """The same by weights worked out for these very parts; 0 where boards differ, or parts may be turned."""
    if len(ready.faces) > 1 or any(len(kind.ways) > 1 for kind in ready.shop.kinds):
        return 0.0
    x0, y0, x1, y1 = ready.faces[0].clear
    parts = [
        (*kind.ways[0][:2], part.count)
        for kind, part in zip(ready.shop.kinds, ready.wanted, strict=True)
        if _fits((*kind.ways[0][:2], 1, False), (x1 - x0, y1 - y0))
    ]
    return costs.each[0] * paired_bound(parts, (x1 - x0, y1 - y0))


def _priced_bound(ready: _Ready, prices: Sequence[float]) -> float:
    """Boards that are needed at the least, all alike, at prices of the units: all parts' worth by one board's most.

    A board cannot hold more than its most valuable filling, in however many stages (Farley 1990).
    Boards are taken as free of defects, and parts of one unit as free to part: both can only lower the bound.
    """
    values = [0.0] * len(ready.wanted)
    for unit, price in zip(ready.shop.units, prices, strict=True):
        for kind in unit.kinds:
            values[kind] = price * ready.shop.kinds[kind].area / unit.area
    face = ready.faces[0].clear
    size = (face[2] - face[0], face[3] - face[1])
    parts = [
        Valued(kind.ways[0][0], kind.ways[0][1], value, part.count, len(kind.ways) > 1)
        for kind, value, part in zip(ready.shop.kinds, values, ready.wanted, strict=True)
    ]
    if not manageable(parts, *size):
        return 0.0
    top = most_valuable(parts, *size, effort=PROOF).top
    return sum(part.value * part.most for part in parts) / top if top else 0.0


def _fits(part: tuple[int, int, int, bool], size: tuple[int, int]) -> bool:
    length, width, _, turn = part
    return (length <= size[0] and width <= size[1]) or (turn and width <= size[0] and length <= size[1])


def _laid(
    ready: _Ready, filled: Sequence[Filled], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection]
) -> tuple[LaidBoard, ...]:
    """Boards with their cuts, alike ones together, in the order of the boards given, the fullest first."""
    alike: Counter[tuple[int, tuple[Rect, ...]]] = Counter()
    for one in sorted(filled, key=lambda b: (b.stock, -b.area, b.taken)):
        rects = tuple(Rect(ready.wanted[lay.kind].mark, lay.box, lay.turned) for lay in one.lays)
        alike[one.stock, rects] += 1
    laid = []
    for (stock, rects), count in alike.items():
        one_board = laid_board(boards[stock], rects, rules, first)
        laid.append(LaidBoard(one_board.board, one_board.placed, one_board.cuts, one_board.offcuts, count))
    return tuple(laid)


def _missing(ready: _Ready, filled: Sequence[Filled]) -> tuple[tuple[str, int], ...]:
    left: Counter[str] = Counter()
    for part in ready.wanted:
        left[part.mark] += part.count
    for board in filled:
        left.subtract(ready.wanted[lay.kind].mark for lay in board.lays)
    return tuple(sorted((mark, n) for mark, n in left.items() if n))
