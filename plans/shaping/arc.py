"""An edge sawn to part of a circle."""

from typing import Literal

from pydantic import Field

from plans.fields import Entry, Length, PositiveLength, Side


class Arc(Entry):
    """An edge that bends: `hollow` takes most out in the middle, `crown` keeps the middle and drops the ends.

    `rise` is how far the arc departs from a straight line between its ends; the radius follows. `flat`
    leaves so much of the edge straight at either end of the arc (of a hollow one only). With an end
    named as `edge`, the end is rounded across the width.
    """

    edge: Side
    bend: Literal["hollow", "crown"]
    rise: PositiveLength
    flat: Length = Field(default=0.0)
