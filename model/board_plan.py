"""Which boards to buy, and how the parts of a piece come out of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from model.blanks import Blank
from model.boards.boards import lay_out_boards
from model.boards.pieces import Board, Layout, Rules, Wanted
from model.boards.sheets import lay_out_sheets
from model.cache import kept
from model.cut_list import CutRow, cut_list
from model.once import once
from model.piece import Piece
from plans.library import dressed, sheet
from plans.library.boards import boards_sold
from plans.spec import Defect
from plans.units import System

LayOut = Callable[[Sequence[Wanted], Sequence[Board], Rules], Layout]
# mm off each edge of a sheet, which comes bruised (common practice)
SHEET_TRIM: dict[System, float] = {"inch": 6.35, "mm": 6.0}


@dataclass(frozen=True)
class StockPlan:
    """The boards of one wood and rough thickness, or the sheets of one kind, laid out."""

    wood: str
    stock: str
    layout: Layout
    rules: Rules
    of: Literal["board", "sheet"] = "board"
    slants: dict[str, float] = field(default_factory=dict)  # of blanks that give two, by their marks (mm)


@once
def board_plans(piece: Piece) -> tuple[StockPlan, ...]:
    """A layout for each wood and rough thickness, or sheet; parts without stock stated are left out."""
    rows: dict[tuple[str, str], list[CutRow]] = {}
    for row in cut_list(piece):
        if row.stock is not None and row.sawn and (row.solid or row.sheet):
            rows.setdefault((row.wood, row.stock), []).append(row)
    return tuple(_plan(piece, wood, stock, found) for (wood, stock), found in rows.items())


def _plan(piece: Piece, wood: str, stock: str, rows: list[CutRow]) -> StockPlan:
    rules = _rules(piece)
    of_sheet = rows[0].sheet
    wanted = [part for row in rows for part in _wanted(piece, row)]
    if of_sheet:
        trim = SHEET_TRIM[piece.design.system]
        rules = replace(rules, end_trim=trim, edge_trim=trim, edge_allowance=0.0)
        return StockPlan(wood, stock, _laid(lay_out_sheets, wanted, _sheets(piece, wood, stock), rules), rules, "sheet")
    if dressed(stock) is not None:
        rules = replace(rules, edge_allowance=0.0)  # its edges are planed already
    slants = {_mark(row, blank): blank.slant for row in rows for blank in row.blanks if blank.gives > 1}
    return StockPlan(
        wood, stock, _laid(lay_out_boards, wanted, _boards(piece, wood, stock), rules), rules, slants=slants
    )


def _laid(lay_out: LayOut, wanted: list[Wanted], boards: list[Board], rules: Rules) -> Layout:
    """A layout, made anew only where parts, boards or rules are others than before."""
    return kept(lay_out.__name__, lambda: (wanted, boards, rules), lambda: lay_out(wanted, boards, rules))


def _mark(row: CutRow, blank: Blank) -> str:
    """`C`, or `C + C` of a blank that gives two."""
    return " + ".join([row.mark] * blank.gives)


def _wanted(piece: Piece, row: CutRow) -> list[Wanted]:
    """The blanks of a line; of sheets without face grain they may be turned."""
    grain = row.solid or piece.parts[row.item.shown].spec.has_face_grain
    return [
        Wanted(
            _mark(row, blank),
            blank.length,
            blank.width,
            blank.count,
            grain,
            row.one_board,
            row.item.name,
        )
        for blank in row.blanks
    ]


def _rules(piece: Piece) -> Rules:
    saw = piece.design.spec.saw
    return Rules(
        kerf=saw.kerf,
        end_trim=saw.end_trim,
        least_offcut_length=saw.least_offcut_length,
        least_offcut_width=saw.least_offcut_width,
        rip_first=saw.first == "rip",
        stages=saw.stages,
    )


def _sheets(piece: Piece, name: str, nominal: str) -> list[Board]:
    """The maker's own sheets of that kind, and those commonly sold."""
    known = sheet(name, nominal)
    sold = [] if known is None else [Board(f"{nominal} {name}", *known.size(piece.design.system))]
    return _listed(piece, name, nominal) or sold


def _boards(piece: Piece, wood: str, stock: str) -> list[Board]:
    """The maker's own boards of that stock, those on hand first; what is commonly sold where none are listed."""
    listed = _listed(piece, wood, stock)
    planed, lengths = dressed(stock), dict.fromkeys(b.length for b in boards_sold(piece.design.system))
    sold = [Board(b.name, b.length, b.width) for b in boards_sold(piece.design.system)]
    if planed is not None:
        sold = [Board(planed.name, length, planed.width) for length in lengths]
    return listed + ([] if any(not board.on_hand for board in listed) else sold)


def _listed(piece: Piece, wood: str, stock: str) -> list[Board]:
    """What the design lists of that stock."""
    return [
        Board(
            f"{stock} board {number}",
            entry.length,
            entry.width,
            entry.count,
            tuple(_stretch(defect) for defect in entry.defects),
            entry.on_hand,
        )
        for number, entry in enumerate(piece.design.spec.boards, start=1)
        if entry.stock == stock and entry.wood in (None, wood)
    ]


def _stretch(defect: Defect) -> tuple[float, float] | tuple[float, float, float, float]:
    """A defect as the layouts have it: a stretch over the whole width, or a box."""
    if defect.across is None:
        return defect.start, defect.end
    return defect.start, defect.across.start, defect.end, defect.across.end
