"""Round pegs driven across a joint."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveCount, PositiveLength, Side


class Pegs(Entry):
    """Round pegs across a tenon or a tongue, in a row over its width.

    Seen from the side they are driven from: each hole is bored `set in` from the shoulder, square
    to the cheeks, right through the mortised part or `deep` into it. In a tenon the hole lies
    `offset` nearer the shoulder, so that the peg draws the joint tight.
    """

    diameter: PositiveLength
    count: PositiveCount = 1
    set_in: PositiveLength = Field(alias="set in", description="from the shoulder to the middle of the peg")
    offset: Length | None = Field(default=None, description="draw of the peg; 1/16 in or 1.5 mm unless said")
    deep: PositiveLength | None = Field(default=None, description="depth of the hole; right through unless said")
    driven_from: Side | None = Field(default=None, alias="from", description="the side they are driven from")
