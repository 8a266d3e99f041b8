"""What is to be laid out, in grown ticks: parts by kind, units with their demands, boards with their faces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model.boards.costs import Costs
from model.boards.filling import Stock
from model.boards.pieces import Board, CutDirection, Rules, Wanted
from model.boards.regions import WAYS, Kind, Region, Shop, Unit, clear_regions
from model.boards.sequence import AXIS
from model.boards.ticks import Face, face_of, ticks


@dataclass(frozen=True)
class Task:
    """Wanted parts by kind, units with their demands, boards with their faces."""

    wanted: tuple[Wanted, ...]
    shop: Shop
    demands: tuple[int, ...]
    faces: tuple[Face, ...]
    stocks: tuple[Stock, ...]


def task_of(
    wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules, first: Sequence[CutDirection], costs: Costs
) -> Task:
    """The parts and boards as the search has them; `first`: the directions that cutting may begin with."""
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
    return Task(tuple(wanted), shop, tuple(demands.values()), faces, stocks)


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
