"""A square channel ploughed along the grain."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveLength, Side


class Groove(Entry):
    """A channel let into the long `side`, along the grain, as for a panel or a bottom.

    `at` is the distance of its nearer wall from one side across (`{bottom: 10}`); left out, it runs
    in the middle. It runs out at both ends; `stop` says how far short of an end it stays.
    """

    side: Side
    at: dict[Side, Length] = Field(default_factory=dict, max_length=1)
    wide: PositiveLength
    deep: PositiveLength
    stop: dict[Side, PositiveLength] = Field(default_factory=dict, max_length=2)
