"""A countersunk wood screw, or one in a stepped or a slotted hole."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Axis, PartName, PositiveCount, PositiveLength


class WoodScrew(Bought):
    """A screw driven `through` one part `into` another, wherever the two touch.

    `gauge` is the inch number of the screw, or `diameter` its metric size (one of the two); `long`
    is its whole length. The screws of one place stand in a row along the strip where the parts
    touch. With `plugged` the head is sunk that deep and covered; with `sunk` it is sunk that deep in
    a wider hole that stays open (a stepped hole), so that a short screw holds a wide rail. With
    `slotted` the hole is a slot that way, so that the wood can move, `play` to either side (half the
    hole's width where it is not said); the head then bears on a washer.
    """

    through: PartName
    into: PartName
    gauge: PositiveCount | None = None
    diameter: PositiveLength | None = None
    long: PositiveLength
    per_place: PositiveCount = Field(default=1, alias="per place")
    plugged: PositiveLength | None = None
    sunk: PositiveLength | None = None
    slotted: Axis | None = None
    play: PositiveLength | None = None
    count: PositiveCount | None = None
