"""Amounts as lists say them."""

from __future__ import annotations

from model.buying import Purchase
from model.cut_list import CutRow, cut_list
from model.piece import Part
from model.takeoff import LumberRow
from plans.spec import Direction
from publish.edition import Edition
from publish.words.names import capital, item_name, listed
from publish.words.spelling import spelt

# work that leaves a part other than its blank, and what a maker calls it
SHAPES: tuple[tuple[set[str], str], ...] = (
    ({"taper"}, "tapered"),
    ({"sloped end"}, "angled ends"),
    ({"sloped edge"}, "bevelled edge"),
    ({"arc", "curve", "relief"}, "sawn to a curve"),
    ({"turned"}, "turned"),
)
POUND = 0.45359237  # kg, exact (NIST SP 811)
SQUARE_FOOT = 304.8**2  # mm2


def feet_words(edition: Edition, row: LumberRow) -> str:
    """Wood to buy, waste included: `14 board feet`, or cubic metres."""
    if edition.units.name == "inch":
        return f"{_up(row.board_feet_with_waste, 0.5):g} board feet"
    return f"{_up(row.cubic_metres_with_waste, 0.001):.3f} m³"


def net_words(edition: Edition, row: LumberRow) -> str:
    """The same without waste."""
    if edition.units.name == "inch":
        return f"{row.board_feet:.1f} board feet"
    return f"{row.cubic_metres:.4f} m³"


def boards_feet_words(edition: Edition, purchase: Purchase | None) -> str:
    """What the boards of a layout measure; nothing for sheets, and where nothing is to buy."""
    if purchase is None or purchase.board_feet is None or purchase.cubic_metres is None or not purchase.count:
        return ""
    if edition.units.name == "inch":
        return f"{_up(purchase.board_feet, 0.5):g} board feet"
    return f"{_up(purchase.cubic_metres, 0.001):.3f} m³"


def _up(value: float, step: float) -> float:
    """The next whole step at or above: one cannot buy less."""
    return round(-(-value // step) * step, 9)


def mass_words(edition: Edition, kg: float) -> str:
    """Whole pounds, or kilograms to a half."""
    if edition.units.name == "inch":
        return f"{round(kg / POUND)} lb"
    return f"{round(kg * 2) / 2:g} kg"


def area_words(edition: Edition, mm2: float) -> str:
    """Square feet, or square metres."""
    if edition.units.name == "inch":
        return f"{mm2 / SQUARE_FOOT:.1f} sq ft"
    return f"{mm2 / 1e6:.2f} m²"


def row_name(edition: Edition, row: CutRow) -> str:
    """The part of a line of the cut list, or which of its boards."""
    name = item_name(edition.piece, row.item)
    return name if row.board is None else f"{name}, board {row.board.number}"


def row_note(edition: Edition, row: CutRow) -> str:
    """What there is to know of a line before it is cut; sentences, the maker's own last."""
    if row.board is not None:
        return {True: "heart side up", False: "heart side down", None: ""}[row.board.heart_up]
    part = edition.piece.parts[row.item.shown]
    said = [
        "" if row.sawn else "Glued up, see below.",
        *_blank_notes(edition, row),
        *_shape_notes(edition, part),
        _matched_note(edition, row),
        "" if part.spec.show_face is None else f"Show face: {part.spec.show_face}.",
        *(_fit_note(edition, name, first) for name, first in _fits(row)),
        row.note,
    ]
    return " ".join(filter(None, said))


def _blank_notes(edition: Edition, row: CutRow) -> list[str]:
    pair, *odd = row.blanks
    if pair.gives == 1:
        return []
    rest = [f"The odd one from {edition.number(blank.width)} × {edition.number(blank.length)}." for blank in odd]
    return ["Two from each blank, head to foot.", *rest]


def _shape_notes(edition: Edition, part: Part) -> list[str]:
    """What the finished part is not: a plain board of these sizes."""
    done = {feature.operation.name for feature in part.features if feature.operation is not None}
    shapes = [word for names, word in SHAPES if done & names]
    return [f"{spelt(edition, capital(listed(shapes)))}."] if shapes else []


def _matched_note(edition: Edition, row: CutRow) -> str:
    if row.one_board is None:
        return ""
    others = matched_marks(edition, row.one_board)
    return f"All from one board: {listed(others)}." if len(others) > 1 else "All from one board."


def matched_marks(edition: Edition, word: str) -> list[str]:
    """The marks of all parts that come out of the same board."""
    return [row.item.mark for row in cut_list(edition.piece) if row.one_board == word and row.board is None]


def _fits(row: CutRow) -> list[tuple[str, float]]:
    first = {"length": row.first_length, "width": row.first_width}
    return [(name, first[name]) for name in row.fits]


def _fit_note(edition: Edition, name: str, first: float) -> str:
    act = {"length": "long", "width": "wide"}[name]
    return f"Cut it {edition.number(first)} {act}, then mark it to fit."


def fitted(edition: Edition, row: CutRow, name: Direction) -> str:
    """A size of a line, in brackets where it is marked in its place."""
    size = edition.number({"length": row.length, "width": row.width}[name])
    return f"({size})" if name in row.fits else size


def rings_words(rings: str) -> str:
    """The growth rings as a cut list says them."""
    return "" if rings == "any" else f"{rings}-sawn"
