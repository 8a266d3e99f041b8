"""A tongue along the edge of one part in a groove along the edge of another."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength, Side


class TongueAndGroove(Entry):
    """Boards joined edge to edge, or an end to an edge, by a tongue.

    Seen from the end: the `of` part grows a tongue `thick` across, in the middle of its thickness or `flush` with
    one face, `long` from its own edge; the `into` part has the groove. Where the two are left a little apart, so
    that boards can swell, the tongue bridges the gap. Between boards of one kind, `edge` says which edge has the
    tongue.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    long: PositiveLength
    edge: Side | None = Field(
        default=None, description="the edge that has the tongue; every one that meets unless said"
    )
    flush: Side | None = Field(default=None, description="the face the tongue is flush with; centred unless said")
    fit: Length | None = Field(default=None, description="room at each cheek; 0.1 mm unless said")
    relief: Length | None = Field(default=None, description="extra depth of the groove; 1/16 in or 1.5 mm unless said")
    glue: bool = True
    count: PositiveCount | None = None
