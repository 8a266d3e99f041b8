"""What is bought beside wood and hardware, by the areas of the piece: glue, finish, abrasives, tape; and spares."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.piece import Piece
from model.takeoff import HardwareRow, finish_area, glue_total
from plans.library.supplies import adhesive, finish_cover

# share to buy over the number needed, and the least of it (common practice); what is not here needs no spares
SPARES: dict[str, tuple[float, int]] = {
    "wood screw": (0.1, 2),
    "nail": (0.1, 4),
    "machine bolt": (0.1, 1),
    "shelf pin": (0.1, 1),
    "top fastener": (0.1, 1),
    "peg": (0.1, 1),
    "breadboard peg": (0.1, 1),
    "dowel": (0.1, 2),
    "biscuit": (0.1, 2),
    "wedge": (0.1, 2),
    "loose tenon": (0.1, 1),
    "key": (0.1, 1),
    "spline": (0.1, 1),
}
PLUG_SPARES = (0.1, 2)
GLUE_WASTE = 1.5  # what stays on the brush and is squeezed out (common practice)
SHEET_SANDS = 1.5  # m2 that one sheet of abrasive paper sands, each grit (common practice)
GRITS = (120, 150, 180)


@dataclass(frozen=True)
class Glue:
    """The glue of the design: mm2 of joints, ml to buy, minutes it can be worked and is clamped; None if unknown."""

    area: float
    millilitres: float | None
    opening: float | None
    clamping: float | None


@dataclass(frozen=True)
class FinishNeed:
    """The finish of the design: mm2 of surface, coats, ml for all of them; None where its cover is unknown."""

    area: float
    coats: int
    millilitres: float | None


def spares(row: HardwareRow) -> int:
    """How many to buy over the number needed."""
    return over(row.count, *SPARES[row.what]) if row.what in SPARES else 0


def over(count: int, share: float, least: int) -> int:
    """A share of a count, rounded up, and never less than `least`."""
    return max(least, math.ceil(count * share - 1e-9))


def plugs(rows: tuple[HardwareRow, ...]) -> int:
    """Plugs that cover heads of screws."""
    return sum(row.count for row in rows if row.values.get("plugged") is not None)


def glue_need(piece: Piece) -> Glue | None:
    """None where the design has no glue, or nothing is glued with it."""
    name, area = piece.design.spec.glue, glue_total(piece)
    if not name or not area:
        return None
    known = adhesive(name)
    if known is None:
        return Glue(area, None, None, None)
    return Glue(area, area / 1e6 * known.spread * GLUE_WASTE, known.opening, known.clamping)


def finish_need(piece: Piece) -> FinishNeed | None:
    """None where the design has no finish."""
    finish = piece.design.spec.finish
    if finish is None:
        return None
    area, known = finish_area(piece), finish_cover(finish.name)
    litres = None if known is None else area / 1e6 * finish.coats / known.cover
    return FinishNeed(area, finish.coats, None if litres is None else litres * 1000)


def abrasive_sheets(piece: Piece) -> int:
    """Sheets of each grit."""
    return max(1, math.ceil(finish_area(piece) / 1e6 / SHEET_SANDS))
