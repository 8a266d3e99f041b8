"""Biscuits between two faces that meet."""

from pydantic import Field

from plans.fields import Entry, Line, PartName, PositiveCount, PositiveLength


class Biscuit(Entry):
    """A row of biscuits wherever the two kinds lie against each other: end to face, edge to edge, face to edge.

    Each is of a `size` of the trade and goes half into either part; its slots are cut with the disc of a biscuit
    joiner, a little longer and deeper than it is, so that the parts can be shifted until they lie flush. The row
    stands along the middle of the face where they meet, `from ends` of it to the middle of the first, or spread
    evenly. The faces are glued as well, unless `glue` says no.
    """

    of: PartName
    into: PartName
    size: Line = Field(description="`0`, `10` or `20`")
    per_place: PositiveCount = Field(default=2, alias="per place")
    from_ends: PositiveLength | None = Field(
        default=None, alias="from ends", description="from each end of the meeting face to the middle of the first"
    )
    glue: bool = True
    count: PositiveCount | None = None
