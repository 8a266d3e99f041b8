"""A long hole with round ends."""

from pydantic import Field

from plans.fields import Axis, Entry, Length, PositiveLength, Side


class Slot(Entry):
    """A hole made longer than wide with a round cutter, so that its ends are half round.

    `long` is measured over all, `along` the part unless another direction is said. `at` places its
    middle as it does that of a `hole`. It goes right through unless `deep` is said.
    """

    side: Side
    long: PositiveLength
    wide: PositiveLength
    along: Axis | None = None
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
    deep: PositiveLength | None = None
