"""Two flat faces glued together."""

from plans.fields import Entry, PartName, PositiveCount


class GluedFace(Entry):
    """A plain glued joint: a flat face of the `of` part lies on a flat face of the `to` part."""

    of: PartName
    to: PartName
    count: PositiveCount | None = None
