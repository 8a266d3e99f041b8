"""Planing a part thinner towards one end."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PositiveLength, Side


class Taper(Entry):
    """A straight taper on one to four of the long sides.

    The part keeps its full size for the distance `after`, measured from its `from` end, then
    narrows evenly to the size `to` at the far end. With both of two opposite sides named, each
    gives half.
    """

    sides: OneOrMore[Side]
    start: Side = Field(alias="from", description="the end that keeps its full size")
    after: Length = Field(default=0.0, description="how far from that end the taper begins")
    to: PositiveLength = Field(description="the size left at the far end")
