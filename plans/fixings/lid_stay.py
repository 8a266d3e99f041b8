"""Lid stays."""

from plans.bought import Bought
from plans.fields import Length, Line, PartName, PositiveCount, Side


class LidStay(Bought):
    """A folding stay that holds up the lid `of`, inside the part `on` (a side of the chest) that it shuts on.

    Shut, it lies folded against the inner face, close under the lid. `hinge` is the side where the lid
    hangs; the folded stay begins `inset` from there. It is screwed to the lid and to the side.
    """

    of: PartName
    on: PartName
    size: Line
    hinge: Side
    inset: Length = 0.0
    count: PositiveCount | None = None
