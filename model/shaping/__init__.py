"""What each kind of shaping does to the solids, by its entry in the design file.

Three stages, in this order whatever the order written: the outline (tapers, sloped ends and edges),
easing of its arrises (on the eased body only), then what is sunk into it (notches, holes).
"""

from collections.abc import Callable
from typing import Any

from model.body import Body
from model.shaping import bevel, chamfer, end_cut, hole, notch, round_over, taper
from model.shaping.shaped import Shaped, Stage
from plans import shaping as written

SHAPERS: dict[type, Callable[[Body, Any], Shaped | None]] = {
    written.Taper: taper.shape,
    written.EndCut: end_cut.shape,
    written.Bevel: bevel.shape,
    written.RoundOver: round_over.shape,
    written.Chamfer: chamfer.shape,
    written.Notch: notch.shape,
    written.Hole: hole.shape,
}

STAGE_OF: dict[type, Stage] = {
    written.Taper: "outline",
    written.EndCut: "outline",
    written.Bevel: "outline",
    written.RoundOver: "easing",
    written.Chamfer: "easing",
    written.Notch: "sunk",
    written.Hole: "sunk",
}

__all__ = ["SHAPERS", "STAGE_OF", "Shaped"]
