"""The cut list: a line for every kind of part that is made here, with the blanks it is sawn from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from model.blanks import STEPS, Blank, blanks
from model.glued_up import PartBoard, part_boards
from model.once import once
from model.piece import Item, Part, Piece
from plans.library import dressed, rough_stock
from plans.sides import OPPOSITE, SIDE_AXIS
from plans.spec import Direction

OVER_TO_FIT = 3.175  # mm: left on a size that is marked in its place, 1/8 in (common practice)


@dataclass(frozen=True)
class CutRow:
    """One line of the cut list; sizes in mm, over all (tenons included, angled ends to their long points).

    A part glued up from boards has a line, and each of its boards has one after it; only what is `sawn` comes out
    of the stock. `fits`: the sizes that are marked in their place. `one_board`: lines with the same word come out of
    one board.
    """

    item: Item
    thickness: float
    width: float
    length: float
    blanks: tuple[Blank, ...]
    wood: str
    rings: str
    stock: str | None
    note: str
    solid: bool = True  # of wood, milled from rough boards; else cut from a sheet, or of another material
    sheet: bool = False
    board: PartBoard | None = None  # of which this line is
    sawn: bool = True  # from rough stock; a part that is glued up is not: its boards are
    fits: tuple[Direction, ...] = ()
    one_board: str | None = None
    on_edge: bool = False  # sawn with its thickness along the face of the board

    @property
    def mark(self) -> str:
        """The mark of the part, with the number of the board."""
        return self.item.mark if self.board is None else f"{self.item.mark}{self.board.number}"

    @property
    def rough_width(self) -> float:
        """Of its blank, or of the one that gives two."""
        return self.blanks[0].width

    @property
    def rough_length(self) -> float:
        """Of its blank."""
        return self.blanks[0].length

    @property
    def first_length(self) -> float:
        """What it is cut to first: its length, or a little over where that is marked to fit."""
        return self.length + (OVER_TO_FIT if "length" in self.fits else 0.0)

    @property
    def first_width(self) -> float:
        """The same of its width."""
        return self.width + (OVER_TO_FIT if "width" in self.fits else 0.0)


@once
def cut_list(piece: Piece) -> tuple[CutRow, ...]:
    """A line for each distinct part that is made here, by wood and rough thickness, the largest first; after a part
    that is glued up, a line for each of its boards."""
    made = [_cut_rows(piece, item) for item in piece.items if not piece.parts[item.shown].spec.supplied]
    groups: dict[tuple[str, str | None], list[list[CutRow]]] = {}
    for rows in made:
        groups.setdefault((rows[0].wood, rows[0].stock), []).append(rows)
    return tuple(row for group in groups.values() for rows in sorted(group, key=_largest_first) for row in rows)


def _largest_first(rows: list[CutRow]) -> tuple[float, float, float]:
    first = rows[0]
    return -round(first.thickness, 2), -round(first.width, 2), -round(first.length, 2)


def supplied(piece: Piece) -> tuple[Item, ...]:
    """The parts that others make, in the order of the marks."""
    return tuple(item for item in piece.items if piece.parts[item.shown].spec.supplied)


def _cut_rows(piece: Piece, item: Item) -> list[CutRow]:
    whole = _cut_row(piece, item)
    boards = part_boards(piece.parts[item.shown])
    coarse, allowance = STEPS[piece.design.system], piece.design.spec.saw.edge_allowance
    rows = [replace(whole, sawn=not boards)]
    for board in boards:
        blank = Blank(whole.rough_length, coarse.ceil(board.width + allowance), item.quantity)
        sizes = {"width": board.width, "thickness": board.thickness, "blanks": (blank,)}
        rows.append(replace(whole, **sizes, note="", board=board, fits=()))  # type: ignore[arg-type]
    return rows


def _cut_row(piece: Piece, item: Item) -> CutRow:
    part = piece.parts[item.shown]
    spec = part.spec
    length, width, thickness = part.over_all
    return CutRow(
        item,
        thickness,
        width,
        length,
        _blanks(piece, item, part),
        spec.made_of,
        spec.rings,
        spec.stock,
        spec.note,
        bool(spec.wood),
        spec.sheet is not None,
        fits=_marked_to_fit(part),
        one_board=spec.from_one_board,
        on_edge=_on_edge(part),
    )


def _blanks(piece: Piece, item: Item, part: Part) -> tuple[Blank, ...]:
    """A solid part is sawn larger; of a sheet only what is marked to fit is, by a little.

    What is as wide as its dressed stock is sold needs no ripping.
    """
    length, width, thickness = part.over_all
    if not part.spec.wood:
        over = {name: OVER_TO_FIT for name in _marked_to_fit(part)}
        return (Blank(length + over.get("length", 0.0), width + over.get("width", 0.0), item.quantity),)
    saw, coarse = piece.design.spec.saw, STEPS[piece.design.system]
    if _on_edge(part):
        width = thickness
    rough_length, rough_width = coarse.ceil(length + saw.end_allowance), coarse.ceil(width + saw.edge_allowance)
    planed = dressed(part.spec.stock)
    if planed is not None and width <= planed.width < rough_width:
        return (Blank(rough_length, planed.width, item.quantity),)
    if part.spec.glued_up is not None:
        return (Blank(rough_length, rough_width, item.quantity),)
    return blanks(part, item.quantity, rough_length, rough_width, saw, piece.design.system)


def _on_edge(part: Part) -> bool:
    """Whether it is sawn with its thickness along the face of the board, which is too thin for it the other way."""
    rough = rough_stock(part.spec.stock) if part.spec.stock else None
    _, width, thickness = part.over_all
    return rough is not None and width < rough.rough < thickness


def _marked_to_fit(part: Part) -> tuple[Direction, ...]:
    """What the design says is marked to fit, what is scribed, and what is cut to an opening with a gap round it."""
    spec = part.spec
    found: set[Direction] = set(spec.marked_to_fit)
    for feature in part.features:
        if feature.operation is not None and feature.operation.name == "scribe":
            side = feature.operation.settings["side"]
            found.add("length" if SIDE_AXIS[side] == spec.runs else "width")  # type: ignore[index]
    for side in spec.cut_to:
        if OPPOSITE[side] in spec.cut_to and spec.gap.get(side) and SIDE_AXIS[side] != spec.thick:
            found.add("length" if SIDE_AXIS[side] == spec.runs else "width")
    names: tuple[Direction, ...] = ("length", "width")
    return tuple(name for name in names if name in found)
