"""A countersunk wood screw."""

from pydantic import Field

from plans.fields import Entry, PartName, PositiveCount, PositiveLength


class WoodScrew(Entry):
    """A screw driven `through` one part `into` another, wherever the two touch.

    `gauge` is the inch number of the screw, or `diameter` its metric size (one of the two); `long`
    is its whole length. The screws of one place stand in a row along the strip where the parts
    touch. With `plugged` the head is sunk that deep and covered.
    """

    through: PartName
    into: PartName
    gauge: PositiveCount | None = None
    diameter: PositiveLength | None = None
    long: PositiveLength
    per_place: PositiveCount = Field(default=1, alias="per place")
    plugged: PositiveLength | None = None
    count: PositiveCount | None = None
