"""An end or an edge cut to the profile of another part."""

from pydantic import Field

from plans.fields import Entry, OneOrMore, PartName, PositiveCount, Side


class Scribe(Entry):
    """A coped or scribed end or edge: the `of` part ends where the `to` part begins, whatever its shape.

    The two are placed so that they lie through each other; `side` says which ends or edges of the
    `of` part are cut. What the other fills is taken away, and whatever would be left beyond it.
    The `to` part stays whole.
    """

    of: PartName
    to: PartName
    side: OneOrMore[Side] = Field(description="the end or edge that is cut: `left`, or a list")
    glue: bool = False
    count: PositiveCount | None = None
