"""Two flat faces glued together."""

from pydantic import Field

from plans.fields import Entry, Line, PartName, PositiveCount


class GluedFace(Entry):
    """A plain glued joint: a flat face of the `of` part lies on a flat face of the `to` part.

    `with` names another adhesive than the design's own glue: locating blocks are stuck to stone or glass,
    which no screw may go into, with one that stays flexible.
    """

    of: PartName
    to: PartName
    adhesive: Line | None = Field(default=None, alias="with")
    count: PositiveCount | None = None
