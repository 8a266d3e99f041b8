"""A tongue in one part held by an open slot in the end of another."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength


class Bridle(Entry):
    """A corner or tee bridle, square or leaning.

    Both parts lie in one plane and pass through each other. Where they do, the `of` part is
    reduced to a tongue `thick` across, in the middle of its thickness, and the `into` part is
    slotted to take it, grown by `fit` on each side.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    fit: Length | None = Field(default=None, description="room for glue at each cheek; 0.1 mm unless said")
    count: PositiveCount | None = None
