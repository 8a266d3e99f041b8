"""Two parts that cross, each notched for the other."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, Ratio, Side


class CrossHalving(Entry):
    """A cross or tee halving, square or leaning.

    Where the two parts pass through each other the `of` part loses what lies on its `notch in`
    side, and the `across` part loses the rest, so that both stay flush. `share` is how much of
    the depth comes out of the `of` part.
    """

    of: PartName
    across: PartName
    notch_in: Side = Field(alias="notch in")
    share: Ratio = Field(default=0.5)
    fit: Length | None = Field(default=None, description="room across each notch; none unless said")
    count: PositiveCount | None = None
