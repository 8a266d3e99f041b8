"""Arrises hollowed to a quarter circle."""

from model.body import Body
from model.shaping.cutters import cutter
from model.shaping.mouldings import mould
from model.shaping.shaped import Shaped
from plans.shaping.cove import Cove


def shape(body: Body, entry: Cove) -> Shaped:
    """A round nose run along each arris."""
    return mould(
        body, "cove", entry.arrises, {"radius": entry.radius}, lambda arris: cutter(arris, entry.radius, "hollow")
    )
