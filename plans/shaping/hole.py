"""A bored hole, or a row of them."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveCount, PositiveLength, Side


class Step(Entry):
    """The wider, shallow part of a stepped hole, for a bolt head or a plug."""

    diameter: PositiveLength
    deep: PositiveLength


class Hole(Entry):
    """A round hole bored square into `side`, right through unless `deep` is said.

    `at` places its centre: the distance from one side in each of the two other directions (the
    middle where none is said). With `count` the holes stand in a row along the part, `spacing`
    from centre to centre; where no place is said along the part, the row is centred. `and at` bores
    the same again at another place: what it does not name is as in `at`. `stepped` widens the mouth
    square, `countersunk` (the diameter at the face) to a cone of 90 degrees.
    """

    side: Side
    diameter: PositiveLength
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
    and_at: dict[Side, Length] = Field(default_factory=dict, max_length=2, alias="and at")
    deep: PositiveLength | None = None
    stepped: Step | None = None
    countersunk: PositiveLength | None = None
    count: PositiveCount = 1
    spacing: PositiveLength | None = None
