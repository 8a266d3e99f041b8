"""How the wood moves with the seasons: equilibrium moisture, and the change of every width and thickness.

Wood Handbook (FPL-GTR-190): equation 4-5 for the moisture, equation 13-2 for the change, whose coefficients hold
between 6 and 14 %; outside, equation 13-3 is nearer, and the change given here is an estimate.
"""

from __future__ import annotations

from dataclasses import dataclass

from model.piece import Item, Part, Piece
from plans.library import Species, species
from plans.sides import Axis, third_axis
from plans.spec import Air

# Wood Handbook figure 13-1: 6 % in the dry Southwest, 8 % most of the USA, 11 % at the damp coasts (indoors).
INDOORS = (6.0, 11.0)
SOUND = (6.0, 14.0)  # where the coefficients hold


def equilibrium_moisture(celsius: float, humidity: float) -> float:
    """Moisture (%) that wood comes to in air of a temperature and a relative humidity (%), Wood Handbook eq. 4-5."""
    t, h = celsius, humidity / 100.0
    w = 349.0 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    one, two = k1 * kh, 2.0 * k1 * k2 * kh * kh
    both = k1 * k2 * kh * kh
    return 1800.0 / w * (kh / (1.0 - kh) + (one + two) / (1.0 + one + both))


def _of_air(air: Air) -> float:
    celsius = air.celsius if air.celsius is not None else ((air.fahrenheit or 0.0) - 32.0) / 1.8
    return equilibrium_moisture(celsius, air.humidity)


def moisture_range(piece: Piece) -> tuple[float, float]:
    """Driest and dampest moisture of the wood in use (%): as said, from the climate said, or as indoors."""
    spec = piece.design.spec
    if spec.moisture is not None:
        return spec.moisture.driest, spec.moisture.dampest
    if spec.climate is not None:
        low, high = sorted((_of_air(spec.climate.dry), _of_air(spec.climate.damp)))
        return low, high
    return INDOORS


def coefficient(wood: Species, rings: str, way: str) -> float:
    """Change of the `width` or `thickness` for 1 % of moisture, as a share of it.

    Flat-sawn wood is tangential across its width, quarter-sawn radial; rift lies between. Where the rings are not
    said, the worst is taken.
    """
    radial, tangential = wood.coefficient_radial, wood.coefficient_tangential
    table = {
        "flat": (tangential, radial),
        "quarter": (radial, tangential),
        "rift": ((radial + tangential) / 2,) * 2,
        "any": (tangential, tangential),
    }
    return table[rings][0 if way == "width" else 1]


def change(part: Part, axis: Axis, size: float, low: float, high: float) -> float | None:
    """How much a stretch of `size` mm of a part, along an axis of its standing frame, grows from `low` to `high` %.

    Nothing along the grain; None for a wood that is not in the table.
    """
    if axis == part.spec.runs:
        return 0.0
    wood = species(part.spec.wood)
    if wood is None:
        return None
    way = "thickness" if axis == part.spec.thick else "width"
    return size * coefficient(wood, part.spec.rings, way) * (high - low)


def width_change(part: Part, size: float, low: float, high: float) -> float:
    """The same across the width; 0 for a wood that is not in the table."""
    return change(part, third_axis(part.spec.runs, part.spec.thick), size, low, high) or 0.0


@dataclass(frozen=True)
class Moves:
    """One line of the movement table (mm): a size as drawn, and how much it changes between driest and dampest."""

    item: Item
    wood: str
    rings: str
    width: float
    width_change: float | None
    thickness: float
    thickness_change: float | None


def movement_table(piece: Piece) -> tuple[Moves, ...]:
    """A line for each distinct part of solid wood, in the order of the marks."""
    low, high = moisture_range(piece)
    return tuple(_moves(piece, item, low, high) for item in piece.items if piece.parts[item.shown].spec.wood)


def _moves(piece: Piece, item: Item, low: float, high: float) -> Moves:
    part = piece.parts[item.shown]
    width, thickness = (b - a for a, b in (part.width, part.thickness))
    wide = third_axis(part.spec.runs, part.spec.thick)
    return Moves(
        item,
        part.spec.wood,
        part.spec.rings,
        width,
        change(part, wide, width, low, high),
        thickness,
        change(part, part.spec.thick, thickness, low, high),
    )
