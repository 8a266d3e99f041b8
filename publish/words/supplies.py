"""Glue, finish, abrasives and tape: how much, and what to know before the tin is opened."""

from __future__ import annotations

import math

from model.piece import Piece
from model.supplies import (
    GRITS,
    PLUG_SPARES,
    FinishNeed,
    Glue,
    abrasive_sheets,
    finish_need,
    glue_need,
    over,
    plugs,
)
from model.takeoff import adhesives, hardware
from plans.library.supplies import adhesive
from publish.edition import Edition
from publish.words.lists import area_words
from publish.words.names import capital, counted, listed

FLUID_OUNCE = 29.5735295625  # ml, US, exact (NIST SP 811)
SHEET = {"inch": "9 × 11 in", "mm": "230 × 280 mm"}
HOUR = 60

Supply = tuple[str, str, str]


def supply_rows(edition: Edition) -> list[Supply]:
    """What, how much, and a note; in the order they are used."""
    piece, spec = edition.piece, edition.piece.design.spec
    rows: list[Supply] = []
    heads = plugs(hardware(piece))
    if heads:
        spare = over(heads, *PLUG_SPARES)
        rows.append(("Plugs", f"{heads}, and {spare} spare", "cut from offcuts of the same board, so that they match"))
    glue = glue_need(piece)
    if glue is not None:
        rows.append((capital(spec.glue), _glue_words(edition, glue), glue_times(glue.opening, glue.clamping)))
    for name, count in adhesives(piece).items():
        known = adhesive(name)
        times = glue_times(known.opening, known.clamping) if known else ""
        rows.append((capital(name), f"{counted(count, 'joint')} to stick", times))
    finish = finish_need(piece)
    if finish is not None and spec.finish is not None:
        rows.append((capital(spec.finish.name), _finish_words(edition, finish), "Thin coats; more on end grain."))
    return [*rows, _abrasives(edition, piece), *_tape(piece)]


def volume_words(edition: Edition, millilitres: float) -> str:
    """Fluid ounces up to the next whole one, or millilitres up to the next 25."""
    if edition.units.name == "inch":
        return f"{math.ceil(millilitres / FLUID_OUNCE)} fl oz"
    return f"{math.ceil(millilitres / 25) * 25} ml"


def _glue_words(edition: Edition, glue: Glue) -> str:
    joints = f"{area_words(edition, glue.area)} of joints"
    return joints if glue.millilitres is None else f"{volume_words(edition, glue.millilitres)}, for {joints}"


def glue_times(opening: float | None, clamping: float | None) -> str:
    """`Open about 8 minutes, in clamps 45 minutes`: what its maker says goes before."""
    if opening is None or clamping is None:
        return "See its label for how long it stays open and has to be clamped."
    return f"Open about {_time(opening)}, in clamps {_time(clamping)}, in a warm shop; go by its label."


def _time(minutes: float) -> str:
    if minutes < 2 * HOUR:
        return counted(round(minutes), "minute")
    return counted(round(minutes / HOUR), "hour")


def _finish_words(edition: Edition, finish: FinishNeed) -> str:
    coats = f"{counted(finish.coats, 'coat')} over {area_words(edition, finish.area)}"
    return coats if finish.millilitres is None else f"{volume_words(edition, finish.millilitres)}, for {coats}"


def _abrasives(edition: Edition, piece: Piece) -> Supply:
    sheets = abrasive_sheets(piece)
    each = f"{counted(sheets, 'sheet')} of each, {SHEET[edition.units.name]}"
    return "Abrasive paper", each, f"{listed(str(grit) for grit in GRITS)} grit, in that order"


def _tape(piece: Piece) -> list[Supply]:
    """Where there is glue to squeeze out."""
    if glue_need(piece) is None:
        return []
    return [("Masking tape", "one roll", "laid along the joints that show before they are glued, to keep them clean")]
