"""Amounts as lists say them."""

from __future__ import annotations

from model.piece import Item
from model.takeoff import CutRow, HardwareRow, LumberRow
from publish.edition import Edition
from publish.words.fixings import fixing_line
from publish.words.loose import LOOSE_NAMES
from publish.words.names import capital, item_name

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


def hardware_name(edition: Edition, row: HardwareRow) -> str:
    """What to ask for."""
    if row.what in LOOSE_NAMES:
        return LOOSE_NAMES[row.what](edition, row.values)
    return fixing_line(edition, row.what, row.values) if row.values else row.what


def row_name(edition: Edition, row: CutRow) -> str:
    """The part of a line of the cut list, or which of its boards."""
    name = item_name(edition.piece, row.item)
    return name if row.board is None else f"{name}, board {row.board.number}"


def row_note(row: CutRow) -> str:
    """The maker's note on a part; how a board of it is laid, and that the part itself is glued up."""
    if row.board is None:
        return row.note if row.sawn else " ".join(filter(None, ("Glued up, see below.", row.note)))
    return {True: "heart side up", False: "heart side down", None: ""}[row.board.heart_up]


def rings_words(rings: str) -> str:
    """The growth rings as a cut list says them."""
    return "" if rings == "any" else f"{rings}-sawn"


def item_title(item: Item) -> str:
    """The name with a capital."""
    return capital(item.name)
