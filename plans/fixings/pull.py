"""Knobs and pulls."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Axis, Length, Line, PartName, PositiveCount, Side


class Pull(Bought):
    """A knob, or a pull on two feet, on the `side` of the part `on`, held by bolts through it from behind.

    `size` is one of the table (`1 in knob`, `96 mm pull`). `at` places its middle: the distance from
    one side in each of the two other directions (the middle where none is said). A pull lies the way
    `lies`.
    """

    on: PartName
    side: Side
    size: Line
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
    lies: Axis = "left-right"
    count: PositiveCount | None = None
