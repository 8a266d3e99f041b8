"""Round dowels between two faces that meet."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength


class Dowel(Entry):
    """A row of dowels wherever the two kinds lie against each other: end to face, edge to edge.

    Each dowel is `long`, with `deep` of it in the `into` part (half unless said); its holes are
    `relief` deeper. The row stands along the middle of the face where they meet, `from ends` of it,
    or spread evenly.
    """

    of: PartName
    into: PartName
    diameter: PositiveLength
    long: PositiveLength
    deep: PositiveLength | None = Field(default=None, description="depth in the `into` part; half unless said")
    per_place: PositiveCount = Field(default=2, alias="per place")
    from_ends: PositiveLength | None = Field(
        default=None, alias="from ends", description="from each end of the meeting face to the first dowel"
    )
    relief: Length | None = Field(default=None, description="extra depth of each hole; 1/16 in or 1.5 mm unless said")
    count: PositiveCount | None = None
