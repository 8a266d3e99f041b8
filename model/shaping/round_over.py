"""Rounded arrises."""

from model.body import Body
from model.shaping.easing import ease
from model.shaping.shaped import Shaped
from plans.shaping.round_over import RoundOver


def shape(body: Body, entry: RoundOver) -> Shaped:
    """A quarter-round cutter along each arris."""
    return ease(body, "round over", entry.arrises, entry.radius, "round")
