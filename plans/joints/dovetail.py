"""A corner of two boards held by dovetails."""

from typing import Literal

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength

Slope = Literal["1:6", "1:7", "1:8"]


class Dovetail(Entry):
    """A dovetailed corner, through or half-blind.

    The tails are on the end of the `of` part, the pins on the end of the `into` part; where the two meet they lie
    through each other. Tails are widest at the end, and slope 1 in 6 (softwood) to 1 in 8 (hardwood). `pin` is the
    narrow side of a pin, between two tails at their end; `half pin` is the same at both edges. Where the tails stop
    short of the far face of the pins, the joint is half-blind, and what is left there is the lap.
    """

    of: PartName
    into: PartName
    tails: PositiveCount
    pin: PositiveLength
    half_pin: PositiveLength | None = Field(default=None, alias="half pin", description="as the pin unless said")
    slope: Slope = "1:8"
    fit: Length | None = Field(default=None, description="room between tails and pins; none unless said")
    count: PositiveCount | None = None
