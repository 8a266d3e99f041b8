"""An opening to carry a piece by."""

from pydantic import Field

from plans.fields import Axis, Entry, Length, PositiveLength, Side


class HandHold(Entry):
    """A slot right through for the fingers, its rim `eased` to a radius on both faces.

    `long` is measured over all, `along` the part unless another direction is said; `at` places its
    middle. A hand wants some 100 by 30 mm.
    """

    side: Side
    long: PositiveLength
    wide: PositiveLength
    along: Axis | None = None
    at: dict[Side, Length] = Field(default_factory=dict, max_length=2)
    eased: PositiveLength | None = None
