"""Chamfered arrises."""

from model.body import Body
from model.shaping.easing import ease
from model.shaping.shaped import Shaped
from plans.shaping.chamfer import Chamfer


def shape(body: Body, entry: Chamfer) -> Shaped:
    """A flat cutter along each arris."""
    return ease(body, "chamfer", entry.arrises, entry.size, "flat", entry.stop)
