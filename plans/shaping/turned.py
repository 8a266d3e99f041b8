"""Work of the lathe."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveLength, Side


class Diameter(Entry):
    """How thick it is at a place: `at` from the end that is measured from."""

    at: Length
    diameter: PositiveLength


class Turned(Entry):
    """A part turned round between centres: a peg, a knob, a round tapered leg.

    `diameter` turns the whole length to one size. Else `diameters` lists how thick it is at places
    `from` one end, in their order, straight from each to the next; two at one place make a shoulder.
    What lies before the first place or past the last stays square.
    """

    diameter: PositiveLength | None = None
    start: Side | None = Field(default=None, alias="from")
    diameters: tuple[Diameter, ...] = Field(default=(), max_length=60)
