"""Arrises cut off flat."""

from pydantic import Field

from plans.fields import Arrises, Entry, PositiveLength


class Chamfer(Entry):
    """A flat of equal legs along chosen arrises, named as for `round over`.

    `size` is what comes off each of the two sides.
    """

    arrises: Arrises = Field(default=("long",))
    size: PositiveLength
