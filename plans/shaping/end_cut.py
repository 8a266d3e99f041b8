"""Cutting an end at an angle."""

from pydantic import Field

from plans.fields import Angle, Entry, Side


class EndCut(Entry):
    """An end that is not square: `slopes` says towards which side it is cut back, and by how much.

    One side gives a mitred or a bevelled end, two sides a compound one. The long point keeps the
    stated length of the part.
    """

    end: Side
    slopes: dict[Side, Angle] = Field(min_length=1, max_length=2)
