"""Arrises rounded to a radius."""

from pydantic import Field

from plans.fields import Arrises, Entry, PositiveLength


class RoundOver(Entry):
    """Quarter-round easing of chosen arrises.

    `arrises` is `long` (the four along the grain), `ends` (those round the ends), `all`, or a list
    of arrises each named by the two sides that meet there: `[top front, top back]`.
    """

    arrises: Arrises = Field(default=("long",))
    radius: PositiveLength
