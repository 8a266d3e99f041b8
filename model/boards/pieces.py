"""What goes into a board layout and what comes out of it. All lengths in mm, areas in mm2.

On a board x runs along its length (and the grain) from the left end, y across it from the lower edge.
A *rip* runs along x and parts the board in y; a *crosscut* runs along y and parts it in x.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

CutDirection = Literal["rip", "crosscut"]
Defect = tuple[float, float] | tuple[float, float, float, float]


@dataclass(frozen=True)
class Wanted:
    """Parts to be cut: `count` alike. With `grain` the length lies along the board's; else it may be turned.

    All parts that name the same `same_board` come from one board, for grain or colour that matches.
    """

    mark: str
    length: float
    width: float = 0.0
    count: int = 1
    grain: bool = True
    same_board: str | None = None
    note: str = ""


@dataclass(frozen=True)
class Board:
    """Boards or sheets of one size: `count` of them, None for as many as it takes (on hand: one).

    A defect is (start, end) along the board, over its whole width, or a box (x0, y0, x1, y1).
    Boards on hand are used before any is bought. `price` is for one board.
    """

    name: str
    length: float
    width: float = 0.0
    count: int | None = None
    defects: tuple[Defect, ...] = ()
    on_hand: bool = False
    price: float | None = None

    @property
    def available(self) -> int | None:
        """How many there are; None for as many as it takes."""
        return 1 if self.on_hand and self.count is None else self.count


@dataclass(frozen=True)
class Rules:
    """How the shop cuts.

    kerf: what the saw takes. end_trim: taken off both ends before anything else, its saw cut included;
    edge_trim: the same off both edges. edge_allowance: left on each long edge for jointing.
    An offcut is kept from least_offcut_length x least_offcut_width upwards.
    stages: how often the direction of cutting may change, the first direction counted as one.
    effort: how many boards the search may fill, one of many parts counted as several; the answer never depends on
    the clock.
    """

    kerf: float = 3.2
    end_trim: float = 0.0
    edge_trim: float = 0.0
    edge_allowance: float = 0.0
    least_offcut_length: float = 300.0
    least_offcut_width: float = 50.0
    rip_first: bool = True
    stages: int = 3
    effort: int = 9_000


@dataclass(frozen=True)
class Placed:
    """One part on a board, as cut: lower left corner, extent along x and along y; `turned` by a quarter."""

    mark: str
    x: float
    y: float
    length: float
    width: float
    turned: bool = False


@dataclass(frozen=True)
class Cut:
    """One cut, edge to edge through the piece (x, y, length, width) that lies on the saw.

    The saw takes the kerf from `at` onwards (x for a crosscut, y for a rip). Stage 0 is trimming.
    """

    number: int
    direction: CutDirection
    at: float
    x: float
    y: float
    length: float
    width: float
    stage: int


@dataclass(frozen=True)
class Offcut:
    """What is left of a board: `kept` when it is clear and large enough to keep, else waste."""

    x: float
    y: float
    length: float
    width: float
    kept: bool


@dataclass(frozen=True)
class LaidBoard:
    """A board with its parts and cuts; `count` boards are cut just like this one."""

    board: Board
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    count: int = 1


@dataclass(frozen=True)
class Layout:
    """A whole layout. `bound`: no layout can do with fewer boards than that.

    Counted are the boards to buy (`bought`); where none is for sale, the boards used. `proven`: no layout is
    cheaper (by price, or by size where prices are not given). `missing`: marks and counts that fit nowhere.
    """

    boards: tuple[LaidBoard, ...]
    bound: int
    proven: bool
    missing: tuple[tuple[str, int], ...] = ()

    @property
    def used(self) -> int:
        """Boards used, those on hand included."""
        return sum(laid.count for laid in self.boards)

    @property
    def bought(self) -> int:
        """Boards to buy."""
        return sum(laid.count for laid in self.boards if not laid.board.on_hand)

    @property
    def yield_share(self) -> float:
        """Share of the boards' face that ends up in parts, 0 to 1; by length for boards without a width."""
        face = sum(laid.count * laid.board.length * (laid.board.width or 1.0) for laid in self.boards)
        parts = sum(laid.count * p.length * (p.width or 1.0) for laid in self.boards for p in laid.placed)
        return parts / face if face else 0.0

    @property
    def offcuts(self) -> tuple[tuple[Offcut, int], ...]:
        """Offcuts worth keeping and how many of each, largest first."""
        kept = [(rest, laid.count) for laid in self.boards for rest in laid.offcuts if rest.kept]
        return tuple(sorted(kept, key=lambda pair: (-pair[0].length * (pair[0].width or 1.0), pair[0].x, pair[0].y)))
