"""A square-cornered bite out of one side."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveLength, Side


class Notch(Entry):
    """A notch sawn into `side`, right across the part.

    It begins `at` from the `from` end, is `long` along the part and `deep` into it.
    """

    side: Side
    start: Side = Field(alias="from")
    at: Length
    long: PositiveLength
    deep: PositiveLength
