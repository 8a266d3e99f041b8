"""Arrises cut off flat."""

from pydantic import Field

from plans.fields import Arrises, Entry, PositiveLength, Side


class Chamfer(Entry):
    """A flat of equal legs along chosen arrises, named as for `round over`.

    `size` is what comes off each of the two sides. `stop` makes it a stopped one: how far short of an
    end the full flat stays; it runs out at half a right angle from there.
    """

    arrises: Arrises = Field(default=("long",))
    size: PositiveLength
    stop: dict[Side, PositiveLength] = Field(default_factory=dict, max_length=2)
