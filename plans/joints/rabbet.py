"""One part let into a step along the edge or end of another."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PartName, PositiveCount, PositiveLength


class Rabbet(Entry):
    """A rabbet joint: a corner of a case, or a back let into the edges round it.

    The part is written as large as it shows from inside. Every end and edge of it that lies against the inner face of
    an `into` part goes on `deep` past that face, into a step that is open towards the nearer edge or end of the
    `into` part, with `room` at its edge where that is said. It is put in from there.
    """

    of: PartName
    into: OneOrMore[PartName] = Field(min_length=1)
    deep: PositiveLength
    room: Length = Field(default=0.0, description="left at the edge of the part that goes in; none unless said")
    glue: bool = True
    count: PositiveCount | None = None
