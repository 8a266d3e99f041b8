"""The moulded edge of a table top."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PositiveLength, Side


class Thumbnail(Entry):
    """A quarter round with a small `step` down from the face: the edge of a table top or a drawer front.

    `face` is the side that is stepped down from, `edges` those along which it runs. `radius` is that
    of the round; the moulding is `radius` wide and `radius` + `step` deep.
    """

    face: Side
    edges: OneOrMore[Side] = Field(min_length=1)
    radius: PositiveLength
    step: Length = Field(default=0.0)
