"""A part made of several boards: edge to edge for width, face to face for thickness."""

from typing import Literal

from pydantic import Field

from plans.fields import Entry, PositiveCount, PositiveLength

Joined = Literal["edge to edge", "face to face"]


class GluedUp(Entry):
    """Boards glued into one part before it is cut to size.

    Edge to edge they lie side by side across the width; face to face they are layers of the thickness. They are
    counted from the left, the front or the bottom, and marked so. `boards` of one size, or their `sizes` in that
    order. With `rings: alternating` the heart side is turned up and down by turns; `matched` lays all alike.
    """

    joined: Joined
    boards: PositiveCount | None = Field(default=None, description="how many, all of one size")
    sizes: tuple[PositiveLength, ...] = Field(default=(), description="their widths, or thicknesses, in order")
    rings: Literal["alternating", "matched"] = "matched"

    def reach(self, over_all: float) -> tuple[float, ...]:
        """Size of each board (mm) in a part that is `over_all` wide, or thick, before it is shaped."""
        return self.sizes or (over_all / (self.boards or 1),) * (self.boards or 1)
