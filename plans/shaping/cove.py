"""Arrises hollowed to a quarter circle."""

from pydantic import Field

from plans.fields import Arrises, Entry, PositiveLength


class Cove(Entry):
    """A hollow quarter round along chosen arrises, named as for `round over`."""

    arrises: Arrises = Field(default=("long",))
    radius: PositiveLength
