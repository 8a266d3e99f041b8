"""A panel that floats in grooves of the frame round it."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PartName, PositiveCount, PositiveLength, Side


class GroovedPanel(Entry):
    """Frame and panel: a panel held in grooves, with room to move, and never glued.

    The panel is written as large as it shows. At every edge that lies against an `into` part it goes on past that
    face into a groove `deep`, and stops `room` short of its bottom. With `thick` the edge is thinned to a tongue, in
    the middle of the thickness or `flush` with one face. Grooves stop at the corners of the panel, but run out through
    a tenoned end of a rail. A bottom or a lid that is put in along its grooves says the side it `slides in from`.
    """

    of: PartName
    into: OneOrMore[PartName] = Field(min_length=1)
    deep: PositiveLength
    room: Length | None = Field(
        default=None, description="left between the panel and the bottom of each groove; 1/16 in or 1.5 mm unless said"
    )
    thick: PositiveLength | None = Field(default=None, description="thickness of the edge; the whole panel unless said")
    flush: Side | None = Field(default=None, description="the face a thinner edge is flush with; centred unless said")
    fit: Length | None = Field(default=None, description="room at each face; 0.1 mm unless said")
    pinned: bool = Field(
        default=False,
        description="held in the middle of its ends by a spot of glue, to move to both sides alike",
    )
    slides_in_from: Side | None = Field(default=None, alias="slides in from")
    count: PositiveCount | None = None
