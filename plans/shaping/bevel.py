"""A long edge planed to an angle."""

from pydantic import Field

from plans.fields import Angle, Entry, Side


class Bevel(Entry):
    """A whole `edge` of the part sloped down `towards` one side by `angle` off square.

    The far side keeps the full width.
    """

    edge: Side
    towards: Side
    angle: Angle = Field(description="off square; 0 leaves the edge as it was")
