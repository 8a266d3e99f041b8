"""Shelf pins in rows of holes."""

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount, PositiveLength


class ShelfPin(Bought):
    """Pins in the part `into` (an upright) that carry the part `under` (a loose shelf).

    At both ends of the shelf two pins stand close under it, `inset` from its front and its back edge.
    Each stands in a row of holes `spacing` apart that goes on for `up` holes above and `down` holes
    below it, so that the shelf can be moved. The shelf ends up to 3 mm short of the upright.
    """

    under: PartName
    into: PartName
    size: Line
    inset: PositiveLength
    spacing: PositiveLength
    up: PositiveCount
    down: PositiveCount
    count: PositiveCount | None = None
