"""A machine bolt into a threaded insert."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount, PositiveLength


class MachineBolt(Bought):
    """A bolt `through` one part into a threaded insert in the other, wherever the two touch.

    `size` is the thread (`1/4-20`, `M6`), `long` the length under the head. With `sunk` the head lies
    that deep in a wider hole. The bolts of one place stand in a row along the strip where they touch.
    """

    through: PartName
    into: PartName
    size: Line
    long: PositiveLength
    per_place: PositiveCount = Field(default=1, alias="per place")
    sunk: PositiveLength | None = None
    count: PositiveCount | None = None
