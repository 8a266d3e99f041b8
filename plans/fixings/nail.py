"""Brads and nails."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Line, PartName, PositiveCount, PositiveLength


class Nail(Bought):
    """A brad or a finishing nail driven `through` one part `into` another, wherever the two touch.

    `size` is its gauge, penny size or diameter (`18 gauge`, `4d`, `1.2 mm`), `long` its whole length.
    Those of one place stand in a row along the strip where the parts touch. Nothing is bored for it.
    """

    through: PartName
    into: PartName
    size: Line
    long: PositiveLength
    per_place: PositiveCount = Field(default=1, alias="per place")
    count: PositiveCount | None = None
