"""A shallow bed for something let in."""

from pydantic import Field

from plans.fields import Entry, Length, PositiveLength, Side


class Recess(Entry):
    """A flat-bottomed bed in `side`: for the leaf of a hinge, a foot leveller, a plate.

    Either `long` and `wide` (`long` along the part; in an end, along its width), or `diameter` for a
    round one. `at` gives the distance from a side to the nearer wall, of a round one to its middle;
    `{front: 0}` lets it run out at the front. Left out, it lies in the middle. `corners` is the
    radius that a cutter leaves there.
    """

    side: Side
    long: PositiveLength | None = None
    wide: PositiveLength | None = None
    diameter: PositiveLength | None = None
    deep: PositiveLength
    corners: PositiveLength | None = None
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
