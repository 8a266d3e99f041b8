"""Magnets let into two parts that shut against each other."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount, PositiveLength


class Magnet(Bought):
    """Pairs of disc magnets, one let in flush in the part `of` and one opposite in the part `to`.

    They stand along the strip where the two touch, `inset` from its ends or, where that is not said,
    spread evenly; `count` is the number of discs. Each is glued in with the poles that draw each other facing.
    """

    of: PartName
    to: PartName
    size: Line
    inset: PositiveLength | None = None
    per_place: PositiveCount = Field(default=1, alias="per place")
    count: PositiveCount | None = None
