"""What each kind of shaping does to the solids, by its entry in the design file.

Three stages, in this order whatever the order written: the outline (tapers, sloped and curved edges, turning),
its arrises (mouldings on both bodies, easing on the eased one only), then what is sunk into it (notches, holes).
"""

from collections.abc import Callable
from typing import Any

from model.body import Body
from model.shaping import (
    arc,
    bevel,
    chamfer,
    cove,
    curve,
    end_cut,
    groove,
    hand_hold,
    hole,
    notch,
    rabbet,
    recess,
    relieved_ends,
    round_over,
    slot,
    taper,
    thumbnail,
    turned,
)
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
    written.Arc: arc.shape,
    written.Curve: curve.shape,
    written.RelievedEnds: relieved_ends.shape,
    written.Turned: turned.shape,
    written.Cove: cove.shape,
    written.Thumbnail: thumbnail.shape,
    written.Groove: groove.shape,
    written.Rabbet: rabbet.shape,
    written.Slot: slot.shape,
    written.HandHold: hand_hold.shape,
    written.Recess: recess.shape,
}

STAGE_OF: dict[type, Stage] = {
    written.Taper: "outline",
    written.EndCut: "outline",
    written.Bevel: "outline",
    written.RoundOver: "easing",
    written.Chamfer: "easing",
    written.Notch: "sunk",
    written.Hole: "sunk",
    written.Arc: "outline",
    written.Curve: "outline",
    written.RelievedEnds: "outline",
    written.Turned: "outline",
    written.Cove: "easing",
    written.Thumbnail: "easing",
    written.Groove: "sunk",
    written.Rabbet: "sunk",
    written.Slot: "sunk",
    written.HandHold: "sunk",
    written.Recess: "sunk",
}

__all__ = ["SHAPERS", "STAGE_OF", "Shaped"]
