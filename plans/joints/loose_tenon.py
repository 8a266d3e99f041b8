"""A separate tenon glued into a mortise in each of two parts."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength


class LooseTenon(Entry):
    """Loose tenons wherever the two kinds lie against each other: end to face, end to edge, edge to edge.

    Each is `thick`, `wide` along the face where they meet and `long`, with `deep` of it in the
    `into` part (half unless said). Both mortises are grown by `fit` on each cheek and are `relief`
    deeper. Several stand in a row, spread evenly or `from ends` of the face to the middle of the first.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    wide: PositiveLength
    long: PositiveLength
    deep: PositiveLength | None = Field(default=None, description="depth in the `into` part; half unless said")
    per_place: PositiveCount = Field(default=1, alias="per place")
    from_ends: PositiveLength | None = Field(
        default=None, alias="from ends", description="from each end of the meeting face to the middle of the first"
    )
    fit: Length | None = Field(default=None, description="room for glue at each cheek; 0.1 mm unless said")
    relief: Length | None = Field(
        default=None, description="extra depth of each mortise; 1/16 in or 1.5 mm unless said"
    )
    count: PositiveCount | None = None
