"""Foot levellers."""

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount


class FootLeveller(Bought):
    """A threaded foot under the part `on`, screwed into an insert in the middle of its lowest face; a
    part hollowed below, that stands on two faces, has one under each.

    `size` is its thread (`1/4-20`, `M6`). The foot stands below the part: cut the part to a level
    that leaves room for it.
    """

    on: PartName
    size: Line
    count: PositiveCount | None = None
