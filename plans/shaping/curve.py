"""An edge sawn to a smooth line through points."""

from pydantic import Field

from plans.fields import Entry, Length, Side


class CurvePoint(Entry):
    """One point of the line: how far `along` the part from the end it is measured from, how far `in` from the edge."""

    along: Length
    inward: Length = Field(alias="in")


class Curve(Entry):
    """A fair curve along a long `edge` through the points given, as a bent batten would draw it.

    `from` is the end from which the points are measured, in their order. Before the first and past
    the last point the edge stays as it is.
    """

    edge: Side
    start: Side = Field(alias="from")
    through: tuple[CurvePoint, ...] = Field(min_length=3, max_length=40)
