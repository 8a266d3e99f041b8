"""A board across the end of a panel that keeps it flat and lets it move."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PartName, PositiveCount, PositiveLength, Side
from plans.pegs import Pegs


class BreadboardEnd(Entry):
    """A tongue along the end of the `of` part in a groove of the `into` part, which runs across it.

    Seen from the edge: the tongue is `thick` across the middle of the panel and `long`; it stops
    `set back` from both edges, or runs right out. The middle peg holds it; the holes of the others
    are drawn out along the width so that each edge of the panel can move by `play` each way. Only
    the middle is glued.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    long: PositiveLength
    set_back: Length = Field(default=0.0, alias="set back", description="shoulder at each edge of the panel")
    pegs: Pegs
    play: Length | None = Field(
        default=None, description="movement of each edge, each way; from the wood of the panel unless said"
    )
    fit: Length | None = Field(default=None, description="room at each cheek; 0.1 mm unless said")
    relief: Length | None = Field(default=None, description="extra depth of the groove; 1/16 in or 1.5 mm unless said")
    ends: OneOrMore[Side] = Field(default=(), description="only these ends of the panel; both unless said")
    count: PositiveCount | None = None
