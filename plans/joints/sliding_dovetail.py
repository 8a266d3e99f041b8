"""The end of one part slid into a dovetailed groove across another."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength, Side
from plans.joints.dovetail import Slope


class SlidingDovetail(Entry):
    """A sliding dovetail, or dovetail housing, through or stopped.

    The end or edge of the `of` part that is cut to the face of the `into` part goes on `deep` past that face, `thick`
    at its end and narrower at the shoulder by the slope on both cheeks. It is slid in along its groove, from the side
    it `slides in from`, where the groove has to be open; with `stopped` the groove ends short of the other side.
    """

    of: PartName
    into: PartName
    deep: PositiveLength
    thick: PositiveLength | None = Field(default=None, description="thickness at the end; the whole part unless said")
    slope: Slope = "1:8"
    stopped: dict[Side, PositiveLength] = Field(
        default_factory=dict, max_length=1, description="how far the groove stops short of a side"
    )
    slides_in_from: Side = Field(alias="slides in from")
    fit: Length | None = Field(default=None, description="room at each cheek; 0.1 mm unless said")
    glue: bool = True
    count: PositiveCount | None = None
