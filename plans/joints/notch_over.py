"""A part notched to sit over another."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount


class NotchOver(Entry):
    """A notch in one part that fits over another, which stays whole.

    Wherever the two would be in the same place, the `of` part gives way; the notch is `fit`
    wider on each side than the part it sits on.
    """

    of: PartName
    over: PartName
    fit: Length | None = Field(
        default=None, description="room on each side of the notch; 1/64 in or 0.4 mm unless said"
    )
    glue: bool = True
    count: PositiveCount | None = None
