"""A rail made narrower towards its ends."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PositiveLength, Side


class RelievedEnds(Entry):
    """A long `edge`, mostly the lower one of a rail, that comes in by `rise` towards each of `ends`.

    The slope ends `long` from the end; `level` of that runs straight to the end before it (a cranked
    end), or none (a tapered one). Both ends unless `ends` names one.
    """

    edge: Side
    rise: PositiveLength
    long: PositiveLength
    level: Length = Field(default=0.0)
    ends: OneOrMore[Side] = ()
