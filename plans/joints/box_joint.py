"""A corner of two boards whose square fingers fill each other's gaps."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount


class BoxJoint(Entry):
    """A box joint, or finger joint.

    Both boards run to the outside of the corner, and so lie through each other there. The corner is divided across
    its width into `fingers` equal slices; the `of` part keeps the first, third and so on, counted from the left,
    the front or the bottom, and the `into` part the others. An odd number gives the `of` part both edges.
    """

    of: PartName
    into: PartName
    fingers: PositiveCount = Field(description="fingers and gaps together across the corner")
    fit: Length | None = Field(default=None, description="room between fingers; 0.1 mm unless said")
    count: PositiveCount | None = None
