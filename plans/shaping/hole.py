"""A bored hole, or a row of them."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveCount, PositiveLength, Side


class Hole(Entry):
    """A round hole bored square into `side`, right through unless `deep` is said.

    `at` places its centre: the distance from one side in each of the two other directions (the
    middle where none is said). With `count` the holes stand in a row along the part, `spacing`
    from centre to centre; where no place is said along the part, the row is centred.
    """

    side: Side
    diameter: PositiveLength
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
    deep: PositiveLength | None = None
    count: PositiveCount = 1
    spacing: PositiveLength | None = None
