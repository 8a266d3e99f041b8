"""A pair of butt hinges, let in flush."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount, PositiveLength, Side


class ButtHinge(Bought):
    """Butt hinges between the part `of` that swings (a lid, a door) and the part `on` that stays.

    The two touch, or nearly, along an edge. The pin stands out on the side `knuckle` (of the part
    that stays); each leaf is let into its part by half of what the closed hinge is thick. `inset` is
    how far the hinges stand from the ends of the strip where the two meet.
    """

    of: PartName
    on: PartName
    size: Line
    knuckle: Side
    inset: PositiveLength
    per_place: PositiveCount = Field(default=2, alias="per place")
    count: PositiveCount | None = None
