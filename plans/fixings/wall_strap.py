"""Straps that hold a piece to the wall."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Length, Line, PartName, PositiveCount, Side


class WallStrap(Bought):
    """A steel strap bent square: one leg screwed to the `side` of the part `on`, the other flat against the wall.

    The wall stands at the side `wall` of the part. `at` places the strap's middle: the distance from a
    side in the direction left (the middle where it is not said). It is fitted when the piece stands.
    """

    on: PartName
    side: Side = "top"
    wall: Side = "back"
    size: Line
    at: dict[Side, Length] = Field(default_factory=dict, max_length=1)
    count: PositiveCount | None = None
